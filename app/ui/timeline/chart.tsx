'use client'

import { useEffect, useRef, useState } from 'react'
import type { Shown } from './axis.ts'
import { type Drawing, drawOnPaper, startDrawing } from './drawing.ts'
import type { Output } from './outputs.ts'
import type { Picture } from './picture.ts'
import css from './timeline.module.css'

type Props = {
  picture: Picture
  /** The day that the keyboard stands on. */
  step: number | null
  onShown: (shown: Shown) => void
  onPick: (day: number, output: Output | null) => void
}

/** The timeline drawn on a canvas, and for paper once more. The table beside it says the same to who cannot see it. */
export function Chart({ picture, step, onShown, onPick }: Props) {
  const place = useRef<HTMLDivElement>(null)
  const paper = useRef<HTMLDivElement>(null)
  const drawing = useRef<Drawing | null>(null)
  const [width, setWidth] = useState(0)
  const [theme, setTheme] = useState(0)
  const [trouble, setTrouble] = useState(false)
  const latest = useRef({ onShown, onPick, step })
  useEffect(() => {
    latest.current = { onShown, onPick, step }
  })

  useEffect(() => {
    const element = place.current
    if (!element) return
    // Known at once, so that the first chart does not wait for a frame.
    setWidth(Math.floor(element.clientWidth))
    const sizes = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)))
    sizes.observe(element)
    const dark = matchMedia('(prefers-color-scheme: dark)')
    const redraw = () => setTheme((times) => times + 1)
    dark.addEventListener('change', redraw)
    void document.fonts?.ready.then(redraw)
    return () => {
      sizes.disconnect()
      dark.removeEventListener('change', redraw)
      drawing.current?.dispose()
      drawing.current = null
    }
  }, [])

  useEffect(() => {
    const element = place.current
    if (!element || width === 0) return
    try {
      drawing.current ??= startDrawing(
        element,
        { picture, width },
        {
          onShown: (days) => latest.current.onShown(days),
          onPick: (day, output) => latest.current.onPick(day, output),
        },
      )
      drawing.current.draw(picture, width)
      if (latest.current.step !== null) drawing.current.point(latest.current.step)
      setTrouble(false)
    } catch {
      setTrouble(true)
    }
  }, [picture, width, theme])

  useEffect(() => {
    if (step !== null) drawing.current?.point(step)
  }, [step])

  usePaper(paper, picture)

  return (
    <>
      {trouble ? <p role="alert">The chart could not be drawn. The table says the same.</p> : null}
      <div
        ref={place}
        className={css.chart}
        role="img"
        aria-label="Timeline of net output and events; the table holds the same in words."
      />
      <div ref={paper} className={css.paper} aria-hidden="true" />
    </>
  )
}

/** Draws the picture for the printer when the page is about to be printed, in the colours that paper has. */
function usePaper(paper: { current: HTMLDivElement | null }, picture: Picture): void {
  const current = useRef(picture)
  useEffect(() => {
    current.current = picture
  }, [picture])
  useEffect(() => {
    let tidy: (() => void) | null = null
    const media = matchMedia('print')
    const draw = () => {
      tidy?.()
      tidy = paper.current ? drawOnPaper(paper.current, current.current) : null
    }
    const clear = () => {
      tidy?.()
      tidy = null
    }
    const change = () => (media.matches ? draw() : clear())
    media.addEventListener('change', change)
    addEventListener('beforeprint', draw)
    addEventListener('afterprint', clear)
    return () => {
      clear()
      media.removeEventListener('change', change)
      removeEventListener('beforeprint', draw)
      removeEventListener('afterprint', clear)
    }
  }, [paper])
}
