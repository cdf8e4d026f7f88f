'use client'

import { useEffect, useRef, useState } from 'react'
import { inksOf } from './inks.ts'
import { layoutOf } from './layout.ts'
import { type Timeline, timelineOption } from './option.ts'
import css from './timeline.module.css'

type Chart = import('echarts/core').ECharts

/** The timeline drawn on a canvas. The table beside it says the same to who cannot see it. */
export function Chart(props: Omit<Timeline, 'width'>) {
  const place = useRef<HTMLDivElement>(null)
  const chart = useRef<Chart | null>(null)
  const [width, setWidth] = useState(0)
  const [theme, setTheme] = useState(0)
  const [trouble, setTrouble] = useState(false)

  useEffect(() => {
    const element = place.current
    if (!element) return
    const sizes = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)))
    sizes.observe(element)
    const dark = matchMedia('(prefers-color-scheme: dark)')
    const redraw = () => setTheme((times) => times + 1)
    dark.addEventListener('change', redraw)
    void document.fonts?.ready.then(redraw)
    return () => {
      sizes.disconnect()
      dark.removeEventListener('change', redraw)
      chart.current?.dispose()
      chart.current = null
    }
  }, [])

  const { page, axis, tracks, drains } = props
  useEffect(() => {
    const element = place.current
    if (!element || width === 0) return
    let isGone = false
    const draw = async () => {
      const { init } = await import('./echarts.ts')
      if (isGone) return
      const { height } = layoutOf(drains, tracks, width)
      chart.current ??= init(element, undefined, { renderer: 'canvas', width, height })
      chart.current.resize({ width, height })
      chart.current.setOption(timelineOption({ page, axis, tracks, drains, width }, inksOf(element)), {
        notMerge: true,
      })
      setTrouble(false)
    }
    draw().catch(() => setTrouble(true))
    return () => {
      isGone = true
    }
  }, [page, axis, tracks, drains, width, theme])

  return (
    <>
      {trouble ? <p role="alert">The chart could not be drawn. The table says the same.</p> : null}
      <div
        ref={place}
        className={css.chart}
        role="img"
        aria-label="Timeline of net output and events; the table holds the same in words."
      />
    </>
  )
}
