import { useEffect, useRef } from 'react'
import type { SheetTarget } from '@/lib/domain/call-sheet-line.ts'

/** True: it has shown the place itself. */
type Listener = (target: SheetTarget) => boolean
const listeners = new Set<Listener>()

/** The id of the element on the page that a number of the call sheet comes from. */
export function idOf(target: SheetTarget): string {
  switch (target.to) {
    case 'report':
      return `report-${target.id}`
    case 'call':
      return `call-${target.id}`
    case 'basis':
      return `basis-${target.flag}`
    case 'day':
    case 'timeline':
      return 'timeline'
    default:
      return target.to
  }
}

/** Leads to where a number comes from: whoever shows it brings it in sight first, then it takes the focus. */
export function jumpTo(target: SheetTarget): void {
  const isShown = [...listeners].map((listener) => listener(target)).includes(true)
  if (isShown) return
  // The list that holds it may have to draw it first.
  requestAnimationFrame(() => requestAnimationFrame(() => show(idOf(target))))
}

/** Hears of each jump, so that a list can show what it had left out. */
export function useJump(on: Listener): void {
  const latest = useRef(on)
  useEffect(() => {
    latest.current = on
  })
  useEffect(() => {
    const listener: Listener = (target) => latest.current(target)
    listeners.add(listener)
    return () => void listeners.delete(listener)
  }, [])
}

function show(id: string): void {
  const place = document.getElementById(id)
  if (!place) return
  for (let at = place.closest('details'); at; at = at.parentElement?.closest('details') ?? null)
    at.open = true
  if (!place.hasAttribute('tabindex')) place.setAttribute('tabindex', '-1')
  place.setAttribute('data-jumped', '')
  place.addEventListener('blur', () => place.removeAttribute('data-jumped'), { once: true })
  place.focus({ preventScroll: true })
  place.scrollIntoView({ block: 'center' })
}
