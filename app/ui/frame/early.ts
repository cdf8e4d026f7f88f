/** Told on the window once the page hears for itself (ready.tsx). */
export const READY = 'outflow-ready'

/**
 * Runs in the browser before anything of the page is shown, until the page's own script hears: what is pressed, chosen
 * or typed meanwhile is kept and done then, in order, so that on a slow line no press is lost and no form goes to its
 * address with what stands in it. Links, and forms that say where they go, work without script and are let through.
 *
 * It is sent as its own source text (early-script.tsx): it may use nothing from outside itself but `ready`.
 */
export function keepEarly(ready: string) {
  type Field = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement
  const pressed: { element: HTMLElement; isForm: boolean }[] = []
  const fields = new Map<Field, string>()
  const kinds = ['click', 'submit', 'input', 'change']

  function keep(event: Event) {
    if (!(event.target instanceof HTMLElement)) return
    const target = event.target
    if (event.type === 'click' || event.type === 'submit') {
      const isForm = event.type === 'submit'
      const element = isForm
        ? target
        : target.closest<HTMLElement>('button, input[type=checkbox], input[type=radio]')
      const form = isForm ? element : element?.closest('form')
      if (!element || form?.hasAttribute('action')) return
      event.preventDefault()
      event.stopImmediatePropagation()
      // Somebody who sees nothing happen presses again: that is one press.
      if (pressed.at(-1)?.element !== element) pressed.push({ element, isForm })
    } else if (
      target instanceof HTMLSelectElement ||
      target instanceof HTMLTextAreaElement ||
      (target instanceof HTMLInputElement && !/^(checkbox|radio|file)$/.test(target.type))
    ) {
      fields.set(target, target.value)
    }
  }

  for (const kind of kinds) window.addEventListener(kind, keep, true)
  window.addEventListener(
    ready,
    () => {
      for (const kind of kinds) window.removeEventListener(kind, keep, true)
      for (const [field, value] of fields) {
        if (!field.isConnected) continue
        // React compares with what it last saw set on the element itself, so first something else, and then what was
        // typed by the prototype's own setter, which it does not see.
        field.value = value === '' && 'defaultValue' in field ? field.defaultValue : ''
        Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), 'value')?.set?.call(field, value)
        field.dispatchEvent(new Event('input', { bubbles: true }))
        field.dispatchEvent(new Event('change', { bubbles: true }))
      }
      for (const { element, isForm } of pressed) {
        if (!element.isConnected) continue
        if (isForm) (element as HTMLFormElement).requestSubmit()
        else element.click()
      }
    },
    { once: true },
  )
}
