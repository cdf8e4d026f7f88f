import type { EChartsCoreOption } from 'echarts/core'
import { type Shown, within } from './axis.ts'
import { brushOn } from './brush.ts'
import { init } from './echarts.ts'
import { inksOf } from './inks.ts'
import { isOutput, type Layout, outputName } from './layout.ts'
import { placesOf, timelineOption } from './option.ts'
import type { Output } from './outputs.ts'
import type { Picture } from './picture.ts'
import css from './timeline.module.css'

/** How long after a turn of the wheel the chart is drawn anew for the days that are left, ms. */
const SETTLE_MS = 150
/** The chart on paper: as wide as a page with margins, and finer than a screen. */
const PAPER_PX = 680
const PAPER_DOTS = 3

type Hands = {
  onShown: (shown: Shown) => void
  /** A day was chosen: its place on the axis, and the output whose strip was meant, if any. */
  onPick: (day: number, output: Output | null) => void
}
export type Drawing = {
  draw(picture: Picture, width: number): void
  /** Puts the pointer on a day, by its place on the axis; null takes it away. */
  point(day: number | null): void
  dispose(): void
}

/** A chart that lives on an element, with its zoom and its brush. Its size must be right from the first: until something is drawn it cannot be changed. */
export function startDrawing(
  element: HTMLElement,
  first: { picture: Picture; width: number },
  { onShown, onPick }: Hands,
): Drawing {
  const { height } = placesOf(first.picture, first.width)
  const chart = init(element, undefined, { renderer: 'canvas', width: first.width, height })
  let picture: Picture | null = null
  let layout: Layout | null = null
  let width = 0
  let timer: ReturnType<typeof setTimeout> | undefined
  let isHeld = false
  let hasMoved = false

  const dayAt = (x: number) => {
    const [day] = chart.convertFromPixel({ xAxisIndex: 0, yAxisIndex: 0 }, [x, 0]) as [number, number]
    return day
  }
  const settle = () => {
    hasMoved = false
    const [zoom] =
      (chart.getOption() as { dataZoom?: { startValue?: number; endValue?: number }[] }).dataZoom ?? []
    if (picture && zoom)
      onShown(within(picture.axis, { from: Number(zoom.startValue), to: Number(zoom.endValue) }))
  }
  chart.on('datazoom', () => {
    hasMoved = true
    clearTimeout(timer)
    if (!isHeld) timer = setTimeout(settle, SETTLE_MS)
  })
  // While the slider is held the chart is not built anew: it would lose its hold.
  const hold = () => {
    isHeld = true
  }
  const letGo = () => {
    isHeld = false
    if (hasMoved) timer = setTimeout(settle, 0)
  }
  element.addEventListener('pointerdown', hold)
  addEventListener('pointerup', letGo)
  addEventListener('pointercancel', letGo)

  brushOn(chart, {
    layout: () => layout,
    width: () => width,
    colours: () => {
      const { band, ink } = inksOf(element)
      return { fill: band, stroke: ink }
    },
    onDrag: (from, to) => {
      if (picture) onShown(within(picture.axis, { from: dayAt(from), to: dayAt(to) }))
    },
    onClick: ({ x, y }) => {
      if (!picture || !layout) return
      const panel = layout.panels.find(
        (one) => isOutput(one) && y >= one.top - 12 && y <= one.top + one.height,
      )
      const output = picture.outputs.find(({ id }) => outputName(id) === panel?.name) ?? null
      onPick(Math.floor(dayAt(x)), output)
    },
  })

  return {
    draw(next, wide) {
      picture = next
      width = wide
      layout = placesOf(next, wide)
      if (chart.getWidth() !== wide || chart.getHeight() !== layout.height)
        chart.resize({ width: wide, height: layout.height })
      chart.setOption(withTip(timelineOption(next, wide, inksOf(element))), { notMerge: true })
      // What is drawn, for whoever waits for it.
      element.dataset.drawn = `${next.axis.first} ${next.shown.from} ${next.shown.to}`
    },
    point(day) {
      const panel = layout?.panels[0]
      if (day === null || !panel) chart.dispatchAction({ type: 'hideTip' })
      else {
        const [x] = chart.convertToPixel({ xAxisIndex: 0, yAxisIndex: 0 }, [day + 0.5, 0]) as [number, number]
        chart.dispatchAction({ type: 'showTip', x, y: panel.top + panel.height / 2 })
      }
    },
    dispose() {
      clearTimeout(timer)
      element.removeEventListener('pointerdown', hold)
      removeEventListener('pointerup', letGo)
      removeEventListener('pointercancel', letGo)
      chart.dispose()
    },
  }
}

/** The pointer's words as an element of the page, in its type: as text, so that nothing in them is markup. */
function withTip({ tooltip, ...option }: EChartsCoreOption): EChartsCoreOption {
  const { formatter, ...rest } = tooltip as { formatter: (given: unknown) => string }
  return {
    ...option,
    tooltip: {
      ...rest,
      renderMode: 'html',
      className: css.tip,
      formatter: (given: unknown) => {
        const text = document.createElement('div')
        text.textContent = formatter(given)
        return text
      },
    },
  }
}

/** Draws the whole picture for paper, at once; what it returns takes it away again. */
export function drawOnPaper(element: HTMLElement, picture: Picture): () => void {
  const { height } = placesOf(picture, PAPER_PX)
  const chart = init(element, undefined, {
    renderer: 'canvas',
    width: PAPER_PX,
    height,
    devicePixelRatio: PAPER_DOTS,
  })
  const { dataZoom, ...option } = timelineOption(picture, PAPER_PX, inksOf(element))
  // Nothing is moved on paper; the days that were looked at stay.
  const [inside] = dataZoom as [object]
  chart.setOption({ ...option, dataZoom: [inside] }, { notMerge: true })
  chart.getZr().refreshImmediately()
  return () => chart.dispose()
}
