'use client'

import { useEffect, useRef } from 'react'
import { type ReadingKey, readingKeyOf } from './keys.ts'

const isText = (target: EventTarget | null) =>
  target instanceof HTMLElement &&
  (target.isContentEditable ||
    /^(SELECT|TEXTAREA)$/.test(target.tagName) ||
    (target instanceof HTMLInputElement && !/^(radio|checkbox)$/.test(target.type)))

/** Enter belongs to whatever it would press. */
const isPressable = (target: EventTarget | null) =>
  target instanceof Element && target.closest('a, button, summary') !== null

/**
 * The reading by keyboard. Nothing while text is written or a dialog is open; Escape leaves the text.
 * @param act does it, and says whether there was something to do
 */
export function useReadingKeys(on: boolean, act: (key: ReadingKey) => boolean): void {
  const latest = useRef(act)
  useEffect(() => {
    latest.current = act
  })
  useEffect(() => {
    if (!on) return
    const onKey = (event: KeyboardEvent) => {
      const { target } = event
      if (event.altKey || event.ctrlKey || event.metaKey || event.defaultPrevented || event.repeat) return
      if (document.querySelector('dialog[open]')) return
      if (isText(target)) {
        if (event.key === 'Escape' && target instanceof HTMLElement) target.blur()
        return
      }
      const key = readingKeyOf(event.key)
      if (key === null || (key.does === 'save' && isPressable(target))) return
      if (latest.current(key)) event.preventDefault()
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [on])
}
