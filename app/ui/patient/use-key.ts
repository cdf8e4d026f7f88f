import { useEffect, useRef } from 'react'

/** One letter that does one thing on a page, unless something is being typed or chosen, or a dialog is open. */
export function useKey(letter: string, on: boolean, act: () => void): void {
  const latest = useRef(act)
  useEffect(() => {
    latest.current = act
  })
  useEffect(() => {
    if (!on) return
    const onKey = (event: KeyboardEvent) => {
      if (event.altKey || event.ctrlKey || event.metaKey || event.defaultPrevented || event.repeat) return
      if (event.key.toLowerCase() !== letter || document.querySelector('dialog[open]')) return
      const { target } = event
      if (
        target instanceof HTMLElement &&
        (target.isContentEditable || /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName))
      )
        return
      event.preventDefault()
      latest.current()
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [letter, on])
}
