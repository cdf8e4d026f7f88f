'use client'

import { type RefObject, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { beginnings, type Drawn, drawnLines, lineAt } from './lines-in-sight.ts'

/** Up to so many lines are simply drawn, all of them: the browser's own search and print see them then. */
const ALL = 120
/** How high a line is thought to be until it was drawn once. */
const LINE_PX = 92
/** Drawn beyond what is seen, above and below, so that a quick scroll meets no blank. */
const BEYOND = 14
/** Drawn at first, before there is a browser to ask. */
const FIRST = { from: 0, to: 24 }

type Ask = {
  ids: readonly string[]
  body: RefObject<HTMLTableSectionElement | null>
  /** The line with the focus stays drawn wherever the page is scrolled, so that the focus is not lost. */
  focusedId: string | null
}

type Answer = {
  drawn: Drawn[]
  afterPx: number
  isMany: boolean
  /** Brings a line into sight and then, once it is drawn, does something with it. */
  reveal: (id: string, then: (line: HTMLElement) => void) => void
}

/**
 * Which of the lines are drawn, for ten as for ten thousand. Each line is measured when it is drawn; what it
 * differs from what was thought is taken up by the browser's own anchoring of the scroll.
 */
export function useDrawn({ ids, body, focusedId }: Ask): Answer {
  const isMany = ids.length > ALL
  const heights = useRef(new Map<string, number>())
  const [measured, setMeasured] = useState(0)
  const [range, setRange] = useState(FIRST)
  const sums = useMemo(() => {
    void measured // the heights are kept beside the state, which only tells that they have changed
    return beginnings(
      (isMany ? ids : []).map((id) => heights.current.get(id) ?? LINE_PX),
      isMany ? ids.length : 0,
    )
  }, [ids, isMany, measured])

  const look = useCallback(() => {
    const top = body.current?.getBoundingClientRect().top
    if (top === undefined) return
    const from = lineAt(sums, -top) - BEYOND
    const to = lineAt(sums, window.innerHeight - top) + BEYOND
    setRange((was) => (was.from === from && was.to === to ? was : { from, to }))
  }, [body, sums])

  useLayoutEffect(() => {
    if (!isMany) return
    look()
    const remeasure = () => {
      heights.current.clear()
      setMeasured((times) => times + 1)
    }
    window.addEventListener('scroll', look, { passive: true })
    window.addEventListener('resize', remeasure)
    return () => {
      window.removeEventListener('scroll', look)
      window.removeEventListener('resize', remeasure)
    }
  }, [isMany, look])

  useEffect(() => {
    if (!isMany) return
    let isOther = false
    for (const line of body.current?.querySelectorAll<HTMLElement>('tr[data-line]') ?? []) {
      const id = line.dataset.line ?? ''
      const height = Math.round(line.getBoundingClientRect().height)
      if (Math.abs((heights.current.get(id) ?? LINE_PX) - height) <= 1) continue
      heights.current.set(id, height)
      isOther = true
    }
    if (isOther) setMeasured((times) => times + 1)
  })

  const reveal = useCallback<Answer['reveal']>(
    (id, then) => {
      const find = () => body.current?.querySelector<HTMLElement>(`tr[data-line="${CSS.escape(id)}"]`)
      const index = ids.indexOf(id)
      const place = body.current?.getBoundingClientRect().top
      if (index < 0 || place === undefined) return
      if (isMany && !find())
        window.scrollBy({ top: place + (sums[index] ?? 0) - window.innerHeight / 2, behavior: 'instant' })
      let tries = 0
      const wait = () => {
        const line = find()
        if (line) then(line)
        else if (++tries < 30) requestAnimationFrame(wait)
      }
      wait()
    },
    [ids, isMany, body, sums],
  )

  const kept = focusedId === null || !isMany ? -1 : ids.indexOf(focusedId)
  const some = isMany
    ? drawnLines(sums, range, kept)
    : { drawn: ids.map((_, index) => ({ index, roomPx: 0 })), afterPx: 0 }
  return { ...some, isMany, reveal }
}
