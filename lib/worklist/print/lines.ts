import type PDFDocument from 'pdfkit'
import type { Run, Word } from './words.ts'
import { inSight } from './words.ts'

/** How a line is written: size in points, weight, how far in, and how much room is left above it. */
export type Style = { size?: number; bold?: boolean; indent?: number; above?: number }
export type Line = Style & { text: string }

/** Points. */
export const MARGIN = 36
const TEXT = 9
const LEADING = 1.32

export type Doc = InstanceType<typeof PDFDocument>
/** A line that is wrapped: its words, and how it is drawn. */
export type SetLine = { words: Word[]; x: number; size: number; bold: boolean; above: number; height: number }

const fontOf = (doc: Doc, { face }: Run, bold: boolean, size: number) => {
  const file = bold ? face.bold : face.regular
  return doc.font(file).fontSize(size)
}

/** Widths of a run at one point of size: the same words come again and again, and measuring is most of the work. */
const widths = new WeakMap<Doc, Map<string, number>>()

function widthOfRun(doc: Doc, run: Run, bold: boolean, size: number): number {
  const known = widths.get(doc) ?? new Map<string, number>()
  widths.set(doc, known)
  const key = `${bold} ${run.face.name} ${run.text}`
  const width = known.get(key) ?? fontOf(doc, run, bold, 100).widthOfString(run.text) / 100
  known.set(key, width)
  return width * size
}
const widthOf = (doc: Doc, { runs }: Word, bold: boolean, size: number) =>
  runs.reduce((sum, run) => sum + widthOfRun(doc, run, bold, size), 0)

export function setLine(
  doc: Doc,
  { size = TEXT, bold = false, indent = 0, above = 0 }: Line,
  words: Word[],
): SetLine[] {
  const x = MARGIN + indent
  const room = doc.page.width - MARGIN - x
  const space = size * 0.26
  const lines: Word[][] = [[]]
  let used = 0
  for (const word of words) {
    const width = widthOf(doc, word, bold, size)
    if (used > 0 && used + space + width > room) {
      lines.push([])
      used = 0
    }
    lines.at(-1)?.push(word)
    used += (used > 0 ? space : 0) + width
  }
  return lines.map((line, i) => {
    const over = i === 0 ? above : 0
    return { words: line, x, size, bold, above: over, height: size * LEADING + over }
  })
}

export function drawLine(doc: Doc, { words, x, size, bold, above }: SetLine, y: number): void {
  let at = x
  for (const word of inSight(words)) {
    // Of one word's runs too, what is read from the right stands the other way round.
    for (const run of word.rtl ? word.runs.toReversed() : word.runs) {
      fontOf(doc, run, bold, size).text(run.text, at, y + above + size, {
        lineBreak: false,
        baseline: 'alphabetic',
      })
      at += widthOfRun(doc, run, bold, size)
    }
    at += size * 0.26
  }
}
