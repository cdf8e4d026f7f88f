'use client'

import { type RefObject, useEffect } from 'react'

const LINK = '[data-row-link]'

/** A place where a key is text or a choice of its own. */
const isTyping = (target: EventTarget | null) =>
  target instanceof HTMLElement &&
  (target.isContentEditable || /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName))

type Keys = {
  room: RefObject<HTMLElement | null>
  find: RefObject<HTMLInputElement | null>
  take: (patientId: string) => void
  on: boolean
}

/**
 * The worklist by keyboard: arrows move from row to row, Space takes the row that has the focus, F or / goes to
 * the search. Enter opens, since the focus is on the patient's link. Nothing while a dialog is open.
 */
export function useKeys({ room, find, take, on }: Keys) {
  useEffect(() => {
    if (!on) return
    const onKey = (event: KeyboardEvent) => {
      if (event.altKey || event.ctrlKey || event.metaKey || document.querySelector('dialog[open]')) return
      const links = [...(room.current?.querySelectorAll<HTMLElement>(LINK) ?? [])].filter((link) =>
        link.checkVisibility(),
      )
      const row = document.activeElement?.closest('[data-row]') ?? null
      const at = links.findIndex((link) => link.closest('[data-row]') === row && row !== null)

      if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
        const fromFind = event.target === find.current
        if (isTyping(event.target) && !fromFind) return
        const step = event.key === 'ArrowDown' ? 1 : -1
        const next =
          at < 0 ? (step > 0 ? 0 : links.length - 1) : Math.min(links.length - 1, Math.max(0, at + step))
        const link = links[next]
        if (!link) return
        event.preventDefault()
        link.focus()
        link.scrollIntoView({ block: 'nearest' })
      } else if (event.key === ' ' && document.activeElement?.matches(LINK)) {
        event.preventDefault()
        const id = row?.getAttribute('data-row')
        if (id) take(id)
      } else if ((event.key === '/' || event.key === 'f' || event.key === 'F') && !isTyping(event.target)) {
        event.preventDefault()
        find.current?.focus()
        find.current?.select()
      }
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [room, find, take, on])
}
