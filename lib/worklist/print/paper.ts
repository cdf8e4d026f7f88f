import PDFDocument from 'pdfkit'
import type { Run, Word } from './words.ts'
import { inSight, wordsOf } from './words.ts'

/** How a line is written: size in points, weight, how far in, and how much room is left above it. */
export type Style = { size?: number; bold?: boolean; indent?: number; above?: number }
export type Line = Style & { text: string }
export type PaperSize = 'A4' | 'LETTER'

/** Points. */
const MARGIN = 36
const FOOT = 40
const TEXT = 9
const LEADING = 1.32

/** What stands at the foot of each page. */
export type Foot = { cautions: string; left: string }

/**
 * A PDF of lines under one another, each wrapped to the page; blocks are kept together where they fit. Fonts are embedded.
 * Letters that no font has are drawn as `?`, and the last line of the file says so.
 */
export async function paperOf(
  title: string,
  size: PaperSize,
  blocks: readonly (readonly Line[])[],
  foot: Foot,
): Promise<Uint8Array> {
  const doc = new PDFDocument({ size, margin: 0, bufferPages: true, info: { Title: title }, lang: 'en' })
  const parts: Buffer[] = []
  doc.on('data', (part: Buffer) => parts.push(part))
  const ended = new Promise<void>((resolve, reject) => {
    doc.on('end', resolve)
    doc.on('error', reject)
  })
  const missing = new Set<string>()
  const words = (text: string) => wordsOf(text, (letter) => missing.add(letter))
  const bottom = doc.page.height - MARGIN - FOOT
  let y = MARGIN

  const write = (lines: readonly SetLine[]) => {
    for (const line of lines) {
      if (y + line.height > bottom) {
        doc.addPage()
        y = MARGIN
      }
      drawLine(doc, line, y)
      y += line.height
    }
  }
  const put = (block: readonly Line[]) => {
    const lines = block.flatMap((line) => setLine(doc, line, words(line.text)))
    const height = lines.reduce((sum, line) => sum + line.height, 0)
    if (y + height > bottom && height <= bottom - MARGIN) {
      doc.addPage()
      y = MARGIN
    }
    write(lines)
  }
  for (const [i, block] of blocks.entries()) {
    put(block)
    // A long list must not keep the server from answering meanwhile.
    if (i % 10 === 9) await new Promise((resolve) => setImmediate(resolve))
  }
  if (missing.size > 0)
    put([
      {
        text: `${missing.size} letters of other scripts could not be drawn here and stand as “?”. The page on the screen and its own print have them. Go by the record number.`,
        above: 8,
        bold: true,
      },
    ])

  const { count } = doc.bufferedPageRange()
  for (let page = 0; page < count; page++) {
    doc.switchToPage(page)
    const at = doc.page.height - MARGIN - FOOT + 10
    const [first] = setLine(doc, { text: '', size: 7.5 }, words(foot.cautions))
    if (first) drawLine(doc, first, at)
    const [second] = setLine(
      doc,
      { text: '', size: 7.5 },
      words(`${foot.left} · page ${page + 1} of ${count}`),
    )
    if (second) drawLine(doc, second, at + 12)
  }
  doc.end()
  await ended
  return new Uint8Array(Buffer.concat(parts))
}

type Doc = InstanceType<typeof PDFDocument>
/** A line that is wrapped: its words, and how it is drawn. */
type SetLine = { words: Word[]; x: number; size: number; bold: boolean; above: number; height: number }

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

function setLine(
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

function drawLine(doc: Doc, { words, x, size, bold, above }: SetLine, y: number): void {
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
