import { barText, type DayBar, type DayRow } from './days.ts'
import { boxWithin, type Inks, type Pen, type Place, type Shape, words } from './series.ts'

/** A digit's width, px. */
const DIGIT = 7
/** From this width on a day has room for its number, px. */
export const ROOMY_DAY_PX = 34
/** Under this a day's bar has no room for an edge, px. */
export const NARROW_DAY_PX = 6
/** Under this there is no room between days either: gaps would only flicker, and a thousand edges take their time. */
const SLIVER_DAY_PX = 3

type Box = { x: number; y: number; width: number; height: number }

/** Where a day's bar stands, and how wide a day is. */
function boxOf({ x, netMl }: DayBar, place: Place, pen: Pen): { box: Box | null; day: number } {
  const day = pen.size([1, 0])[0]
  const width = Math.max(1, day < SLIVER_DAY_PX ? day : day * 0.68)
  const [middle, end] = pen.coord([x, netMl])
  const [, ground] = pen.coord([x, 0])
  // A zero is a zero, not a blank: it has a line's height.
  const tip = Math.abs(ground - end) < 1.5 ? ground - 1.5 : end
  return { box: boxWithin(place, [middle - width / 2, tip], [middle + width / 2, ground]), day }
}

/** One bar, with a mark on top of what is 'at least' so much. */
export function bar(row: DayRow, place: Place, pen: Pen, inks: Inks): Shape | null {
  const day = row.bars[place.dataIndex]
  const box = day && boxOf(day, place, pen).box
  if (!day || !box) return null
  const rect = { type: 'rect', shape: box, style: fillOf(day, box.width >= 4, inks) }
  return day.atLeast ? { type: 'group', children: [rect, atLeastMark(box, inks)] } : rect
}

/** All bars of a strip whose days are too narrow for edges and numbers: one shape of a kind, so that years are drawn at once. */
export function narrowBars(row: DayRow, place: Place, pen: Pen, inks: Inks): Shape {
  const isSolid = pen.size([1, 0])[0] < SLIVER_DAY_PX
  const runs: { kind: DayBar['kind']; until: number; boxes: Box[]; isUnder: boolean }[] = []
  const marks: Shape[] = []
  for (const bar of row.bars) {
    const { box } = boxOf(bar, place, pen)
    if (!box) continue
    if (bar.atLeast) marks.push(atLeastMark(box, inks))
    const isUnder = bar.netMl < 0
    const run = runs.at(-1)
    const touches = isSolid && run?.until === bar.x - 0.5
    if (touches && run.kind === bar.kind && run.isUnder === isUnder) {
      run.boxes.push(box)
      run.until = bar.x + 0.5
    } else runs.push({ kind: bar.kind, until: bar.x + 0.5, boxes: [box], isUnder })
  }
  const path = (kind: DayBar['kind'], style: Shape) => {
    const pathData = runs
      .flatMap((run) => (run.kind === kind ? outline(run.boxes, run.isUnder) : []))
      .join('')
    return pathData === '' ? [] : [{ type: 'path', shape: { pathData }, style }]
  }
  return {
    type: 'group',
    children: [
      ...path(
        'complete',
        isSolid
          ? { fill: inks.outputBefore, stroke: inks.outputEdge, lineWidth: 1 }
          : { fill: inks.outputEdge },
      ),
      ...path('partial', { fill: inks.sheet, stroke: inks.output, lineWidth: 1 }),
      ...path('last', { fill: inks.output }),
      ...marks,
    ],
  }
}

/** Around bars that touch, up and down in steps: of one bar, its four sides. */
function outline(boxes: readonly Box[], isUnder: boolean): string[] {
  const [first] = boxes
  if (!first) return []
  const ground = isUnder ? first.y : first.y + first.height
  const steps = boxes.map(({ x, y, width, height }) => `V${isUnder ? y + height : y}H${x + width}`)
  return [`M${first.x} ${ground}${steps.join('')}V${ground}Z`]
}

const fillOf = ({ kind }: DayBar, isEdged: boolean, inks: Inks): Shape =>
  kind === 'partial'
    ? { fill: isEdged ? inks.hatch : inks.sheet, stroke: inks.output, lineWidth: 1 }
    : kind === 'last'
      ? { fill: inks.output }
      : isEdged
        ? { fill: inks.outputBefore, stroke: inks.outputEdge, lineWidth: 1 }
        : { fill: inks.outputEdge }

/** An open arrow on top of the bar: it goes on from there, nobody knows how far. */
function atLeastMark({ x, y, width }: Box, inks: Inks): Shape {
  const middle = x + width / 2
  const reach = Math.max(2.5, Math.min(6, width / 2))
  return {
    type: 'polyline',
    shape: {
      points: [
        [middle - reach, y - 2],
        [middle, y - 2 - reach],
        [middle + reach, y - 2],
      ],
    },
    style: { stroke: inks.output, lineWidth: 1.5, fill: 'none' },
  }
}

/** A bar's number stands in it, where it has the height, else above it; none where days are too narrow for it. */
export function number(row: DayRow, place: Place, pen: Pen, inks: Inks): Shape | null {
  const day = row.bars[place.dataIndex]
  if (!day) return null
  const { box, day: width } = boxOf(day, place, pen)
  if (!box || width < ROOMY_DAY_PX) return null
  const text = fitting(barText(day), width)
  const middle = box.x + box.width / 2
  const widest = widthOf(text)
  if (day.kind !== 'partial' && box.height >= 20 && widest <= box.width)
    return words(text, { x: middle, y: box.y + 4, align: 'center', verticalAlign: 'top' }, inks, {
      color: day.kind === 'last' ? inks.sheet : inks.ink,
      halo: day.kind === 'last' ? inks.output : inks.outputBefore,
    })
  const over = box.y - (day.atLeast ? 11 : 3)
  const y = Math.max(place.coordSys.y + text.split('\n').length * 14, over)
  // The words of the last day stay clear of those beside the chart.
  const most = place.coordSys.x + place.coordSys.width + 2 - widest / 2
  return words(text, { x: Math.min(middle, most), y, align: 'center', verticalAlign: 'bottom' }, inks, {
    ground: inks.sheet,
  })
}

const widthOf = (text: string) => Math.max(...text.split('\n').map((line) => line.length)) * DIGIT

/** Without 'so far' where that would cover the neighbours: the hours in the second line say it, too. */
const fitting = (text: string, width: number) =>
  widthOf(text) <= width * 1.4 ? text : text.replace(/ (so far|in part)/, '')

/** Days of which nothing is known: a dotted line along the ground, and the word for why where there is room. */
export function unknown(row: DayRow, place: Place, pen: Pen, isLow: boolean, inks: Inks): Shape | null {
  const run = row.unknown[place.dataIndex]
  if (!run) return null
  const [start, ground] = pen.coord([run.from + 0.15, 0])
  const [end] = pen.coord([run.to - 0.15, 0])
  const box = boxWithin(place, [start, ground], [end, ground])
  if (!box) return null
  const { x, width } = box
  const whole = run.why.length * 6.2
  const stacked = Math.max(...run.why.split(' ').map((word) => word.length)) * 6.2
  const text = width >= whole ? run.why : width >= stacked - 6 && !isLow ? run.why.replaceAll(' ', '\n') : '⋮'
  return {
    type: 'group',
    children: [
      {
        type: 'line',
        shape: { x1: x, y1: ground - 1, x2: x + width, y2: ground - 1 },
        style: { stroke: inks.ink2, lineWidth: 2, lineDash: [2, 2] },
      },
      words(text, { x: x + width / 2, y: ground - 4, align: 'center', verticalAlign: 'bottom' }, inks, {
        color: inks.ink2,
      }),
    ],
  }
}
