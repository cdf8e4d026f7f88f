import { dayLines } from './day-text.ts'
import type { Picture } from './picture.ts'

const WIDE = 62
const MOST_LINES = 18

/** What the pointer shows: everything of the day under it, broken into short lines, and the flags of its hour. */
export function pointerText(picture: Picture, x: number): string {
  const { axis, tracks } = picture
  const end = axis.count + axis.ahead
  const at = Math.min(Math.max(0, x), end - 1e-6)
  const day = Math.floor(at)
  const lines = dayLines(picture, day).filter((line) => !line.startsWith('Flags: '))
  const hour = Math.floor((at - day) * 24)
  const standing = tracks.flags.filter(
    ({ from, to }) => from < day + (hour + 1) / 24 && to >= day + hour / 24,
  )
  const flags = standing.map(({ says }) => says)
  const all = [
    ...lines,
    ...(flags.length > 0 ? [`Flags at ${String(hour).padStart(2, '0')}:00`, ...flags] : []),
  ].flatMap(wrapped)
  return all.length > MOST_LINES
    ? [...all.slice(0, MOST_LINES), `and ${all.length - MOST_LINES} more lines in the table`].join('\n')
    : all.join('\n')
}

/** A line broken between words; what follows is set in. */
export function wrapped(line: string): string[] {
  const lines: string[] = []
  let rest = line
  while (rest.length > WIDE) {
    const cut = rest.lastIndexOf(' ', WIDE)
    const at = cut > 3 ? cut : WIDE
    lines.push(rest.slice(0, at))
    rest = `  ${rest.slice(at).trimStart()}`
  }
  return [...lines, rest]
}
