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
  type Kept = { element: HTMLElement; act: () => void }
  const all: Kept[] = []
  // Not `change`, which follows on `input`: between the two React may take the page over, and put back what stood in a choice.
  const kinds = ['click', 'submit', 'input']

  function keep(event: Event) {
    const { target } = event
    if (!(target instanceof HTMLElement)) return
    const kept = event.type === 'input' ? entry(target as Field) : press(event, target)
    if (!kept) return
    // Somebody who sees nothing happen presses again: that is one press. Of what is typed the last holds.
    if (all.at(-1)?.element === kept.element) all.pop()
    all.push(kept)
  }

  function press(event: Event, target: HTMLElement): Kept | null {
    const isForm = event.type === 'submit'
    const element = isForm
      ? target
      : target.closest<HTMLElement>('button, input[type=checkbox], input[type=radio]')
    const form = isForm ? element : element?.closest('form')
    if (!element || form?.hasAttribute('action')) return null
    event.preventDefault()
    event.stopImmediatePropagation()
    return {
      element,
      act: () => (isForm ? (element as HTMLFormElement).requestSubmit() : element.click()),
    }
  }

  function entry(field: Field): Kept | null {
    if (!/^(INPUT|TEXTAREA|SELECT)$/.test(field.tagName) || /^(checkbox|radio|file)$/.test(field.type))
      return null
    const { value } = field
    return {
      element: field,
      act: () => {
        // React compares with what it last saw set on the element itself, so first something else, and then what was
        // typed by the prototype's own setter, which it does not see.
        field.value = value === '' && 'defaultValue' in field ? field.defaultValue : ''
        Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), 'value')?.set?.call(field, value)
        field.dispatchEvent(new Event('input', { bubbles: true }))
        field.dispatchEvent(new Event('change', { bubbles: true }))
      },
    }
  }

  for (const kind of kinds) window.addEventListener(kind, keep, true)
  window.addEventListener(
    ready,
    async () => {
      for (const kind of kinds) window.removeEventListener(kind, keep, true)
      for (const { element, act } of all) {
        if (element.isConnected) act()
        // The page answers to one before the next, as it would a person: what is pressed last sees what was chosen first.
        await new Promise((resolve) => setTimeout(resolve))
      }
    },
    { once: true },
  )
}
