import { readFileSync } from 'node:fs'
import path from 'node:path'

/** A part of a script that one font file holds: its files, and which letters they cover. */
export type Face = { name: string; regular: string; bold: string; covers: (codePoint: number) => boolean }

/** Which parts are taken, in the order in which a letter is looked for. What none covers cannot be drawn. */
const PARTS: readonly [family: string, part: string][] = [
  ['noto-sans', 'latin'],
  ['noto-sans', 'latin-ext'],
  ['noto-sans', 'vietnamese'],
  ['noto-sans', 'greek'],
  ['noto-sans', 'greek-ext'],
  ['noto-sans', 'cyrillic'],
  ['noto-sans', 'cyrillic-ext'],
  ['noto-sans', 'devanagari'],
  ['noto-sans-arabic', 'arabic'],
  ['noto-sans-hebrew', 'hebrew'],
]

/** By hand and not by resolving a module: the server is a bundle, which knows no folder of its own. */
const folderOf = (family: string) => path.join(process.cwd(), 'node_modules/@fontsource', family)

let known: Face[] | undefined

/** The faces of the printed pages. Files are read when a face is first drawn with. */
export function faces(): readonly Face[] {
  known ??= PARTS.map(([family, part]) => {
    const ranges: unknown = JSON.parse(readFileSync(path.join(folderOf(family), 'unicode.json'), 'utf8'))
    const file = (weight: number) =>
      path.join(folderOf(family), 'files', `${family}-${part}-${weight}-normal.woff`)
    return { name: part, regular: file(400), bold: file(700), covers: within(textOf(ranges, part)) }
  })
  return known
}

function textOf(ranges: unknown, part: string): string {
  const text = ranges !== null && typeof ranges === 'object' ? Reflect.get(ranges, part) : undefined
  if (typeof text !== 'string') throw new Error(`fonts: ${part} names no letters`)
  return text
}

/** Reads `U+0000-00FF,U+0131`. */
function within(text: string): (codePoint: number) => boolean {
  const spans = text.split(',').map((one) => {
    const [from = '', to = from] = one.trim().slice(2).split('-')
    return [Number.parseInt(from, 16), Number.parseInt(to, 16)] as const
  })
  return (codePoint) => spans.some(([from, to]) => from <= codePoint && codePoint <= to)
}
