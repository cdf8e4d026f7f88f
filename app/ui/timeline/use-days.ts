import { type KeyboardEvent, useState } from 'react'
import { type Axis, isWhole, type Shown, wholeOf, within } from './axis.ts'

const WEEK = 7

export type Days = {
  shown: Shown
  isNarrowed: boolean
  narrow(to: Shown): void
  back(): void
  whole(): void
  /** The day that the keyboard stands on, by its place on the axis; null before the first key. */
  step: number | null
  /** Which of the outputs, where there are several, Enter means. */
  focus: number
  stand(day: number, focus?: number): void
  onKeyDown(event: KeyboardEvent): void
}

/** What of the axis is looked at, and on which day the keyboard stands. */
export function useDays(axis: Axis, outputs: number, onEnter: (day: number, focus: number) => void): Days {
  // The narrowed views, the latest last: each can be stepped out of.
  const [views, setViews] = useState<readonly Shown[]>([])
  // Counted back from today, so that it stays the same day on a longer axis.
  const [ago, setAgo] = useState<number | null>(null)
  const [focus, setFocus] = useState(0)
  const last = views.at(-1)
  const shown = last ? within(axis, last) : wholeOf(axis)
  const end = axis.count + axis.ahead - 1
  const today = axis.count - 1
  const held = (day: number) => Math.min(end, Math.max(0, day))
  const step = ago === null ? null : held(today - ago)

  const narrow = (to: Shown) => {
    const next = within(axis, to)
    setViews(isWhole(axis, next) ? [] : [...views, next])
  }
  const back = () => setViews(views.slice(0, -1))
  const whole = () => setViews([])
  const standOn = (day: number) => {
    const next = held(day)
    setAgo(today - next)
    if (next < shown.from || next + 1 > shown.to) {
      const width = shown.to - shown.from
      const from = next < shown.from ? next : next + 1 - width
      setViews([...views.slice(0, -1), within(axis, { from, to: from + width })])
    }
  }

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return
    const at = step ?? today
    const first = step === null
    const acts: Record<string, () => void> = {
      ArrowLeft: () => standOn(first ? today : at - 1),
      ArrowRight: () => standOn(first ? today : at + 1),
      PageUp: () => standOn(at - WEEK),
      PageDown: () => standOn(at + WEEK),
      Home: () => standOn(0),
      End: () => standOn(today),
      ArrowUp: () => setFocus(Math.max(0, focus - 1)),
      ArrowDown: () => setFocus(Math.min(outputs - 1, focus + 1)),
      '+': () => {
        const half = Math.max(1, (shown.to - shown.from) / 4)
        narrow({ from: at + 0.5 - half, to: at + 0.5 + half })
      },
      '-': back,
      Escape: whole,
      Enter: () => {
        if (step !== null) onEnter(step, Math.min(focus, outputs - 1))
      },
    }
    const act = acts[event.key === '=' ? '+' : event.key]
    if (!act || (event.key === 'Escape' && views.length === 0)) return
    event.preventDefault()
    act()
  }

  return {
    shown,
    isNarrowed: views.length > 0,
    narrow,
    back,
    whole,
    step,
    focus: Math.min(focus, Math.max(0, outputs - 1)),
    stand: (day, on = 0) => {
      setAgo(today - held(day))
      setFocus(on)
    },
    onKeyDown,
  }
}
