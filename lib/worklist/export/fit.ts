import type { Line } from '../print/lines.ts'

/** A part of a page: its items stay whole; those after the first `least` may be left out. */
export type Section = { title: string; items: Line[][]; least: number }

const TEXT = 9
/** Sizes of the text that are tried before anything is left out. */
const SIZES = [9, 8.25, 7.5]

/** A section with nothing kept but so many of its items. */
type Kept = { section: Section; count: number }

/**
 * The lines of a page of one fixed height: smaller where they do not fit, and then the last items of the longest sections
 * left out. Each section says how many it leaves out.
 * @param heightOf of a line as it is set, in points
 */
export function fitted(
  head: readonly Line[],
  sections: readonly Section[],
  room: number,
  heightOf: (line: Line) => number,
): Line[] {
  const height = remembered(heightOf)
  const all = sections.map((section): Kept => ({ section, count: section.items.length }))
  for (const size of SIZES) {
    const lines = sized([...head, ...all.flatMap(linesOf)], size)
    if (heightSum(lines, height) <= room) return lines
  }
  const least = SIZES.at(-1) as number
  const linesNow = () => sized([...head, ...all.flatMap(linesOf)], least)
  for (;;) {
    const lines = linesNow()
    if (heightSum(lines, height) <= room) return lines
    const longest = all
      .filter(({ section, count }) => count > section.least)
      .toSorted((a, b) => heightSum(linesOf(b), height) - heightSum(linesOf(a), height))[0]
    if (!longest) return cut(lines, room, height)
    longest.count -= 1
  }
}

/** Setting a line is most of the work, and the same lines are looked at again and again. */
function remembered(heightOf: (line: Line) => number): (line: Line) => number {
  const known = new Map<string, number>()
  return (line) => {
    const key = JSON.stringify(line)
    const height = known.get(key) ?? heightOf(line)
    known.set(key, height)
    return height
  }
}

const heightSum = (lines: readonly Line[], heightOf: (line: Line) => number) =>
  lines.reduce((sum, line) => sum + heightOf(line), 0)

function linesOf({ section: { title, items }, count }: Kept): Line[] {
  const left = items.length - count
  return [
    { text: title, size: 11, bold: true, above: 8 },
    ...items.slice(0, count).flat(),
    ...(left > 0
      ? [{ text: `${left} more left out here: on the screen and in the CSV files.`, bold: true, above: 2 }]
      : []),
  ]
}

const sized = (lines: readonly Line[], size: number): Line[] =>
  size === TEXT ? [...lines] : lines.map((line) => ({ ...line, size: ((line.size ?? TEXT) * size) / TEXT }))

/** The last resort: what is below the page is left out, and that is said. */
function cut(lines: readonly Line[], room: number, heightOf: (line: Line) => number): Line[] {
  const more: Line = { text: 'More did not fit on this page: see the screen.', bold: true }
  const kept: Line[] = []
  let left = room - heightOf(more)
  for (const line of lines) {
    left -= heightOf(line)
    if (left < 0) break
    kept.push(line)
  }
  return [...kept, more]
}
