import SVGtoPDF from 'svg-to-pdfkit'
import { roleLabels } from '../../domain/labels.ts'
import { clockTime, fullDate, localDate, weekday } from '../../domain/local-time.ts'
import type { PatientPage } from '../../domain/patient-page.ts'
import { cautions, PROJECT } from '../../domain/project.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { drawLine, type Line, MARGIN, setLine } from '../print/lines.ts'
import { drawPaper, missingText, type Paper, type PaperSize } from '../print/paper.ts'
import { headOf, sectionsOf } from './chart-text.ts'
import { fitted } from './fit.ts'
import { fontFile, withFaces } from './svg-text.ts'

/** A picture with its own measures and its title. */
export type Picture = { svg: string; width: number; height: number; title: string }
/** The timeline as it is drawn: its pictures, how they are read, and what they leave out. */
export type DrawnTimeline = { pictures: Picture[]; says: string; leftOut: string[] }

/** Room that is kept for what is said of letters that could not be drawn. */
const MISSING_ROOM = 30

/**
 * Two pages for the chart at the hospital: what stands, and the timeline. What has no room is left out, and how much that is.
 * @param draw makes the timeline for the room that there is
 */
export function chartPdf(
  page: PatientPage,
  staff: StaffMember,
  size: PaperSize,
  draw: (page: PatientPage) => DrawnTimeline,
): Promise<Uint8Array> {
  const { timeZone: zone } = page.clinic
  const date = localDate(page.asOf, zone)
  const printed = `${weekday(date)} ${fullDate(date)}, ${clockTime(page.asOf, zone)} (${zone})`
  const foot = { cautions, left: `Printed ${printed} by ${staff.name}, ${roleLabels[staff.role]}` }
  return drawPaper(`${PROJECT}: for the chart`, size, foot, (paper) => {
    const { doc, bottom, words, missing } = paper
    const room = bottom - MARGIN
    const set = (line: Line) => setLine(doc, line, words(line.text))
    const heightOf = (line: Line) => set(line).reduce((sum, { height }) => sum + height, 0)
    const put = (lines: readonly Line[], from: number) => {
      let y = from
      for (const line of lines.flatMap(set)) {
        drawLine(doc, line, y)
        y += line.height
      }
      return y
    }

    const lines = fitted(headOf(page), sectionsOf(page), room - MISSING_ROOM, heightOf)
    const end = put(lines, MARGIN)
    // Letters are counted on the first page before the second is drawn: what that one lacks is said on it.
    if (missing.size > 0) put([{ text: missingText(missing), above: 6, bold: true }], end)

    doc.addPage()
    const before = missing.size
    const [name, ids] = headOf(page)
    const top = put([...(name ? [{ ...name, size: 11 }] : []), ...(ids ? [ids] : [])], MARGIN)
    const { pictures, says, leftOut } = draw(page)
    let y = put([{ text: 'Timeline', size: 11, bold: true, above: 8 }, { text: says }], top)
    const titleOf = (title: string): Line => ({ text: title, bold: true, above: 8 })
    const notes = leftOut.map((text): Line => ({ text, bold: true, above: 2 }))
    const heights = [...notes, ...pictures.map(({ title }) => titleOf(title))].map(heightOf)
    const left = bottom - MISSING_ROOM - y - heights.reduce((sum, height) => sum + height, 0)
    const wanted = pictures.reduce((sum, { height }) => sum + height, 0)
    const width = doc.page.width - 2 * MARGIN
    const scale = Math.min(left / wanted, ...pictures.map((one) => width / one.width))
    for (const { svg, title, height } of pictures) {
      y = put([titleOf(title)], y)
      drawPicture(paper, svg, y, scale)
      y += height * scale
    }
    y = put(notes, y)
    if (missing.size > before) put([{ text: missingText(missing), above: 4, bold: true }], y)
  })
}

function drawPicture({ doc, words }: Paper, svg: string, y: number, scale: number): void {
  doc.save()
  doc.translate(MARGIN, y).scale(scale)
  SVGtoPDF(doc, withFaces(svg, words), 0, 0, { assumePt: true, fontCallback: fontFile })
  doc.restore()
}
