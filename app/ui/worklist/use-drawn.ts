'use client'

import { defaultRangeExtractor, useWindowVirtualizer } from '@tanstack/react-virtual'
import { type RefObject, useCallback, useLayoutEffect, useState } from 'react'

/** Up to so many lines are simply drawn, all of them: the browser's own search and print see them then. */
const ALL = 120
const LINE_PX = 88
/** Drawn beyond what is seen, so that a quick scroll meets no blank. */
const BEYOND = 14
/** Seen at first, before there is a browser to ask. */
const FIRST_SIGHT = { width: 1366, height: 768 }

type Ask = {
  ids: readonly string[]
  body: RefObject<HTMLTableSectionElement | null>
  /** The line with the focus stays drawn wherever the page is scrolled, so that the focus is not lost. */
  focusedId: string | null
}

/** A stretch of lines to draw after a room of so many pixels that is left blank; the last is the room below. */
export type Drawn = { index: number; roomPx: number }

/** Which of the lines are drawn, for ten as for ten thousand. */
export function useDrawn({ ids, body, focusedId }: Ask) {
  const [margin, setMargin] = useState(0)
  const isMany = ids.length > ALL
  const focused = focusedId === null ? -1 : ids.indexOf(focusedId)
  const virtualizer = useWindowVirtualizer({
    count: ids.length,
    enabled: isMany,
    estimateSize: () => LINE_PX,
    overscan: BEYOND,
    scrollMargin: margin,
    initialRect: FIRST_SIGHT,
    getItemKey: (index) => ids[index] ?? index,
    rangeExtractor: (range) => {
      const seen = defaultRangeExtractor(range)
      return focused < 0 || seen.includes(focused) ? seen : [...seen, focused].toSorted((a, b) => a - b)
    },
  })

  // What stands above the list grows and shrinks: lines of news, of what is hidden, of a lost connection.
  useLayoutEffect(() => {
    const place = body.current
    if (!place || !isMany) return
    const measure = () => {
      const top = Math.round(place.getBoundingClientRect().top + window.scrollY)
      setMargin((was) => (Math.abs(was - top) > 1 ? top : was))
    }
    measure()
    const watch = new ResizeObserver(measure)
    watch.observe(document.body)
    return () => watch.disconnect()
  }, [body, isMany])

  /** Brings a line into sight and then, once it is drawn, does something with it. */
  const reveal = useCallback(
    (id: string, then: (line: HTMLElement) => void) => {
      const index = ids.indexOf(id)
      if (index < 0) return
      if (isMany && !body.current?.querySelector(lineOf(id)))
        virtualizer.scrollToIndex(index, { align: 'center' })
      let tries = 0
      const look = () => {
        const line = body.current?.querySelector<HTMLElement>(lineOf(id))
        if (line) then(line)
        else if (++tries < 30) requestAnimationFrame(look)
      }
      look()
    },
    [ids, isMany, body, virtualizer],
  )

  if (!isMany)
    return {
      drawn: ids.map((_, index) => ({ index, roomPx: 0 })),
      afterPx: 0,
      measure: undefined,
      reveal,
      isMany,
    }
  let end = margin
  const drawn = virtualizer.getVirtualItems().map((item): Drawn => {
    const roomPx = Math.max(0, item.start - end)
    end = item.end
    return { index: item.index, roomPx }
  })
  const afterPx = Math.max(0, virtualizer.getTotalSize() + margin - end)
  return { drawn, afterPx, measure: virtualizer.measureElement, reveal, isMany }
}

const lineOf = (id: string) => `tr[data-line="${CSS.escape(id)}"]`
