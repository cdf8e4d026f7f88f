import { fullDate } from '../../domain/local-time.ts'
import { minutesLines } from '../../domain/minutes-lines.ts'
import { cautions, PROJECT } from '../../domain/project.ts'
import type { KeptMinutes, SignedMinutes } from '../../domain/week-minutes.ts'
import { type Line, type PaperSize, paperOf } from './paper.ts'

/** Signed minutes as a PDF, with the hash by which they can be told from others. */
export function minutesPdf(
  { hash, minutes }: KeptMinutes & { minutes: SignedMinutes },
  size: PaperSize,
): Promise<Uint8Array> {
  const { content } = minutes
  const { head, parts, signature } = minutesLines(minutes)
  const blocks: Line[][] = [
    [
      { text: head.title, size: 15, bold: true },
      ...head.lines.map((text): Line => ({ text, above: 2 })),
      ...(content.clinic.demo
        ? [{ text: 'Demo scenario: every person and every report here is invented.' }]
        : []),
    ],
    ...parts.flatMap(({ title, lines }) =>
      lines.map((line, i): Line[] => [
        ...(i === 0 ? [{ text: title, size: 11, bold: true, above: 10 }] : []),
        { text: line.text, bold: line.strong, above: line.strong ? 4 : 1 },
        ...line.under.map((text): Line => ({ text, indent: 12 })),
      ]),
    ),
    [{ text: signature, bold: true, above: 12 }, { text: `SHA-256 ${hash}` }],
  ]
  return paperOf(`${PROJECT}: minutes of a week`, size, blocks, {
    cautions,
    left: `${content.clinic.name} · minutes of the week of ${fullDate(content.week)}`,
  })
}
