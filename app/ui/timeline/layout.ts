import type { Tracks } from './tracks.ts'

/** One strip of the chart. All strips share their left and right edges, so one time axis holds for all. */
export type Panel = {
  name: string
  title: string
  top: number
  height: number
  titleTop?: number
  lanes?: number
}
export type Layout = { panels: Panel[]; left: number; right: number; height: number }

const LEFT = 64
const RIGHT = 84
const GAP = 8
const AXIS = 28
const LANE = 11

/** Where each strip stands. The height follows from what there is; the output takes most of it. */
export function layoutOf(drains: readonly string[], { flags }: Tracks, width: number): Layout {
  const outputHeight = drains.length === 1 ? 240 : drains.length === 2 ? 140 : 110
  const lanes = Math.max(1, ...flags.map(({ lane }) => lane + 1))
  const wanted: Omit<Panel, 'top'>[] = [
    ...drains.map((drain) => ({ name: `output ${drain}`, title: '', height: outputHeight })),
    { name: 'flush', title: 'Flush', height: 20 },
    { name: 'dressing', title: 'Dressing', height: 20 },
    { name: 'temperature', title: '°C', height: 46 },
    { name: 'pain', title: 'Pain', height: 32 },
    { name: 'position', title: 'Site', height: 20 },
    { name: 'events', title: 'Events', height: 20 },
    { name: 'flags', title: 'Flags', height: Math.max(16, lanes * LANE), lanes },
    { name: 'calls', title: 'Calls', height: 20 },
  ]
  let top = 22
  const panels = wanted.map((panel) => {
    const placed = { ...panel, top, titleTop: top + panel.height / 2 - 8 }
    top += panel.height + (panel.name.startsWith('output') ? 22 : GAP)
    return placed
  })
  return { panels, left: width < 500 ? 52 : LEFT, right: width < 500 ? 64 : RIGHT, height: top + AXIS }
}
