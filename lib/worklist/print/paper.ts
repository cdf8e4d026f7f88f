import PDFDocument from 'pdfkit'
import { type Doc, drawLine, type Line, MARGIN, type SetLine, setLine } from './lines.ts'
import { type Word, wordsOf } from './words.ts'

export type { Line } from './lines.ts'
export type PaperSize = 'A4' | 'LETTER'

/** Points. */
const FOOT = 40

/** What stands at the foot of each page. */
export type Foot = { cautions: string; left: string }

/** A document that is being drawn. */
export type Paper = {
  doc: Doc
  /** The lowest point at which a line may end. */
  bottom: number
  words: (text: string) => Word[]
  /** Letters so far that no font has. */
  missing: ReadonlySet<string>
}

/** Draws a PDF whose fonts are embedded, with its foot on every page. Letters that no font has are drawn as `?`. */
export async function drawPaper(
  title: string,
  size: PaperSize,
  foot: Foot,
  draw: (paper: Paper) => void | Promise<void>,
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
  await draw({ doc, bottom: doc.page.height - MARGIN - FOOT, words, missing })
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

/** What is said of letters that could not be drawn. */
export const missingText = ({ size }: ReadonlySet<string>): string =>
  `${size === 1 ? '1 letter of another script could not be drawn here and stands' : `${size} letters of other scripts could not be drawn here and stand`} as “?”. The page on the screen and its own print have ${size === 1 ? 'it' : 'them'}. Go by the record number.`

/**
 * A PDF of lines under one another, each wrapped to the page; blocks are kept together where they fit.
 * Of letters that could not be drawn the last line of the file says so.
 */
export const paperOf = (
  title: string,
  size: PaperSize,
  blocks: readonly (readonly Line[])[],
  foot: Foot,
): Promise<Uint8Array> =>
  drawPaper(title, size, foot, async ({ doc, bottom, words, missing }) => {
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
    if (missing.size > 0) put([{ text: missingText(missing), above: 8, bold: true }])
  })
