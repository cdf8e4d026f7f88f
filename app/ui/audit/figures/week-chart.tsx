'use client'

import { useEffect, useRef, useState } from 'react'
import type { ShownFigure } from '@/lib/domain/figures.ts'
import audit from '../audit.module.css'
import css from './figures.module.css'
import { type ChartInks, weekOption } from './week-option.ts'

type Chart = import('echarts/core').ECharts

const HEIGHT = 200

/** The weeks of a figure on a canvas. The table beside it says the same. */
export function WeekChart({ figure }: { figure: ShownFigure }) {
  const place = useRef<HTMLDivElement>(null)
  const [trouble, setTrouble] = useState(false)
  const { chart, label } = figure

  useEffect(() => {
    const element = place.current
    if (!element) return
    let drawn: Chart | null = null
    let isGone = false
    const draw = () =>
      drawn?.setOption(weekOption(figure, inksOf(element)) as Parameters<Chart['setOption']>[0], true)
    const dark = matchMedia('(prefers-color-scheme: dark)')
    const sizes = new ResizeObserver(() => drawn?.resize({ width: element.clientWidth, height: HEIGHT }))
    import('./echarts.ts')
      .then(({ init }) => {
        if (isGone) return
        drawn = init(element, undefined, { renderer: 'canvas', width: element.clientWidth, height: HEIGHT })
        draw()
        sizes.observe(element)
        dark.addEventListener('change', draw)
      })
      .catch(() => setTrouble(true))
    return () => {
      isGone = true
      sizes.disconnect()
      dark.removeEventListener('change', draw)
      drawn?.dispose()
    }
  }, [figure])

  return (
    <figure className={css.figure}>
      {trouble ? <p role="alert">The chart could not be drawn. The table says the same.</p> : null}
      <div
        ref={place}
        className={css.chart}
        role="img"
        aria-label={`${label}, week by week; the table holds the same in numbers.`}
      />
      <figcaption className={audit.quiet}>
        {chart.kind === 'u-chart'
          ? 'u-chart: dashed the rate of all weeks, dotted the limits of chance; a filled point lies beyond them.'
          : 'Run chart: dashed the median of the weeks. A week of under five has no point.'}
      </figcaption>
    </figure>
  )
}

/** The tokens as the page resolves them now. */
function inksOf(element: Element): ChartInks {
  const style = getComputedStyle(element)
  const value = (name: string) => style.getPropertyValue(`--${name}`).trim()
  return {
    ink: value('ink'),
    ink2: value('ink-2'),
    rule: value('rule'),
    output: value('output'),
    sheet: value('sheet'),
    face: value('face'),
  }
}
