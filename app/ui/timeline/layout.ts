import type { Track } from './happenings.ts'

/** One strip of the chart. All strips share their left and right edges, so one time axis holds for all. */
export type Panel = { name: string; title: string; top: number; height: number; titleTop: number }
export type Layout = { panels: Panel[]; left: number; right: number; height: number; sliderTop: number }

/** What the outputs share, so that all tracks are seen beside the call sheet on a ward screen. */
const OUTPUTS = 236
const LEAST_OUTPUT = 18
const LEFT = 64
const RIGHT = 92
const NARROW = 500
const GAP = 4
/** Above an output's strip: its name, or the newest numbers, where they have no room at the bars. */
const NAME = 15
const NAMES = 19
const AXIS = 22
const SLIDER = 14
const LANE = 9
const MOST_FLAGS = 45

const tracks: readonly { name: Track | 'flags'; title: string; height: number; hasLanes?: true }[] = [
  { name: 'flush', title: 'Flush', height: 18, hasLanes: true },
  { name: 'dressing', title: 'Dressing', height: 18, hasLanes: true },
  { name: 'temperature', title: '°C', height: 34 },
  { name: 'pain', title: 'Pain', height: 24 },
  { name: 'signs', title: 'Signs', height: 18 },
  { name: 'site', title: 'Site', height: 18, hasLanes: true },
  { name: 'events', title: 'Events', height: 18 },
  { name: 'flags', title: 'Flags', height: 0 },
  { name: 'calls', title: 'Calls', height: 18 },
]

export const outputName = (id: string) => `output ${id}`
export const isOutput = ({ name }: Pick<Panel, 'name'>) => name.startsWith('output ')

/** From this many on each output's name stands beside its strip instead of above it, so that all are seen at once. */
const DENSE = 6
export const areDense = (outputs: readonly unknown[]) => outputs.length >= DENSE

/**
 * Where each strip stands.
 * @param flagLanes how many flags overlap; `lanes`: how many drains share a track
 */
export function layoutOf(
  outputs: readonly { id: string; title: string }[],
  { flagLanes, lanes }: { flagLanes: number; lanes: number },
  width: number,
): Layout {
  const isDense = areDense(outputs)
  const name = isDense ? GAP : outputs.length > 1 ? NAMES : NAME
  const share = Math.floor(OUTPUTS / Math.max(1, outputs.length)) - name
  const wider = Math.min(isDense ? 6 : 16, (lanes - 1) * 4)
  let top = Math.max(9, name + 1)
  const panels: Panel[] = outputs.map(({ id, title }) => {
    const height = Math.max(LEAST_OUTPUT, share)
    const panel = {
      name: outputName(id),
      title,
      top,
      height,
      titleTop: isDense ? top + height / 2 - 7 : top - name + 3,
    }
    top += height + name
    return panel
  })
  top += 8 - name
  for (const { name, title, height: own, hasLanes } of tracks) {
    const height =
      name === 'flags' ? Math.min(MOST_FLAGS, Math.max(16, flagLanes * LANE)) : own + (hasLanes ? wider : 0)
    panels.push({ name, title, top, height, titleTop: top + height / 2 - 7 })
    top += height + GAP
  }
  const isNarrow = width < NARROW
  const sliderTop = top + AXIS
  return {
    panels,
    left: isNarrow ? 56 : LEFT,
    right: isNarrow ? 64 : RIGHT,
    height: sliderTop + SLIDER + 4,
    sliderTop,
  }
}

export const SLIDER_HEIGHT = SLIDER
