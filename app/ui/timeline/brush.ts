import type { ECharts } from 'echarts/core'
import { graphic } from './echarts.ts'
import type { Layout } from './layout.ts'

/** Less than this is a click, px. */
const DRAG_PX = 6

type Place = { x: number; y: number }
type Pointer = {
  offsetX: number
  offsetY: number
  zrByTouch?: boolean
  event?: { shiftKey?: boolean; button?: number }
}
type Hands = {
  layout: () => Layout | null
  width: () => number
  colours: () => { fill: string; stroke: string }
  /** Days were dragged over: from and to in pixels. */
  onDrag: (from: number, to: number) => void
  onClick: (place: Place) => void
}

/**
 * Dragging over the chart chooses days; a click or a tap chooses one. A finger that moves is left to the page, which
 * scrolls; with shift the chart itself is moved.
 */
export function brushOn(chart: ECharts, { layout, width, colours, onDrag, onClick }: Hands): void {
  const zr = chart.getZr()
  const mark = new graphic.Rect({ silent: true, z: 100, invisible: true })
  zr.add(mark)
  let start: (Place & { isFinger: boolean }) | null = null
  const isInside = ({ x, y }: Place) => {
    const places = layout()
    return places !== null && x >= places.left && x <= width() - places.right && y < places.sliderTop
  }
  const within = (x: number) => {
    const places = layout()
    return places ? Math.min(Math.max(x, places.left), width() - places.right) : x
  }
  zr.on('mousedown', (given: unknown) => {
    const { offsetX: x, offsetY: y, zrByTouch, event } = given as Pointer
    const isMeant = !event?.shiftKey && (event?.button ?? 0) === 0 && isInside({ x, y })
    start = isMeant ? { x, y, isFinger: zrByTouch === true } : null
  })
  zr.on('mousemove', (given: unknown) => {
    const places = layout()
    if (!start || !places || start.isFinger) return
    const x = within((given as Pointer).offsetX)
    const isDrag = Math.abs(x - start.x) >= DRAG_PX
    mark.attr({
      invisible: !isDrag,
      shape: { x: Math.min(x, start.x), y: 0, width: Math.abs(x - start.x), height: places.sliderTop - 20 },
      style: { ...colours(), opacity: 0.35, lineWidth: 1 },
    })
  })
  const end = (given: unknown) => {
    if (!start) return
    const from = start
    start = null
    mark.attr({ invisible: true })
    const { offsetX, offsetY } = given as Pointer
    const x = within(offsetX)
    const isDrag = Math.hypot(x - from.x, from.isFinger ? offsetY - from.y : 0) >= DRAG_PX
    if (isDrag && from.isFinger) return
    if (isDrag) onDrag(Math.min(x, from.x), Math.max(x, from.x))
    else onClick({ x: offsetX, y: offsetY })
  }
  zr.on('mouseup', end)
  zr.on('globalout', () => {
    start = null
    mark.attr({ invisible: true })
  })
}
