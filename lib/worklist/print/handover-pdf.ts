import { type HandoverEntry, type HandoverSheet, staying } from '../../domain/handover.ts'
import {
  agreedText,
  answersFor,
  byWhen,
  dueText,
  findingTexts,
  identifiers,
  type Read,
  readOf,
  signatures,
  spanText,
  tryText,
  untilText,
} from '../../domain/handover-lines.ts'
import { dayAndTime, shortTimes } from '../../domain/local-time.ts'
import { cautions, PROJECT } from '../../domain/project.ts'
import { type Line, type PaperSize, paperOf } from './paper.ts'

const IN = 12

/** A handover as a PDF: what was signed, or, while it is open, what stands. */
export const handoverPdf = (sheet: HandoverSheet, size: PaperSize): Promise<Uint8Array> =>
  paperOf(`${PROJECT}: handover`, size, blocksOf(sheet), {
    cautions,
    left: `${sheet.clinic.name} · handover as of ${dayAndTime(sheet.asOf, sheet.clinic.timeZone)}`,
  })

function blocksOf(sheet: HandoverSheet): Line[][] {
  const read = readOf(sheet)
  const { entries, coming, handover, unreadable } = sheet
  const needs = entries.filter((entry) => entry.needs)
  const others = entries.filter((entry) => !entry.needs && entry.part === 'clinical')
  const upkeep = entries.filter((entry) => !entry.needs && entry.part === 'upkeep')
  return [
    head(sheet),
    ...(unreadable.length > 0
      ? [[{ text: `${unreadable.length} could not be read and may be missing below.`, bold: true, above: 6 }]]
      : []),
    ...part('At once and within 1 hour', needs, sheet, read),
    ...part('Other rows', others, sheet, read),
    ...part('Upkeep', upkeep, sheet, read),
    ...(coming.length > 0
      ? [
          [title(`Not on the list now, due by ${untilText(sheet)}`, coming.length)],
          ...coming.map((one): Line[] => [
            {
              text: `${one.name} · ${identifiers(one)}: ${one.due.map((due) => dueText(due, read)).join('; ')}`,
              above: 2,
            },
          ]),
        ]
      : []),
    ...(handover
      ? [signatures(handover, read.zone).map((text): Line => ({ text, bold: true, above: 8 }))]
      : []),
  ]
}

function head(sheet: HandoverSheet): Line[] {
  const { handover, entries, clinic } = sheet
  const isSigned = handover?.givenAt && handover.takenAt
  const left = staying(entries)
  return [
    { text: `Handover · ${clinic.name}`, size: 15, bold: true },
    ...(isSigned ? [] : [{ text: 'Not signed by both yet.', bold: true }]),
    { text: spanText(sheet) },
    ...(handover ? signatures(handover, clinic.timeZone).map((text) => ({ text })) : []),
    ...(handover && left.length > 0
      ? [
          {
            text: `Accepted by nobody, with ${handover.givenBy.name}: ${left.map(({ name, recordNumber }) => `${name} (${recordNumber})`).join(', ')}.`,
            bold: true,
          },
        ]
      : []),
    ...(handover?.note ? [{ text: `Note: ${handover.note}`, above: 3 }] : []),
    ...(clinic.demo ? [{ text: 'Demo scenario: every person and every report here is invented.' }] : []),
  ]
}

const title = (text: string, count: number): Line => ({
  text: `${text} · ${count}`,
  size: 11,
  bold: true,
  above: 10,
})

/** A title stays with its first row. */
function part(name: string, entries: HandoverEntry[], sheet: HandoverSheet, read: Read): Line[][] {
  return entries.map((entry, i) => [
    ...(i === 0 ? [title(name, entries.length)] : []),
    ...entryLines(entry, sheet, read),
  ])
}

function entryLines(entry: HandoverEntry, sheet: HandoverSheet, read: Read): Line[] {
  const { label, by } = byWhen(entry, read)
  const answers = answersFor(entry, sheet.handover, read)
  const isSameZone = entry.timeZone === read.zone
  const under = (text: string, bold = false): Line => ({ text, indent: IN, bold })
  return [
    {
      text: `${[label, by].filter(Boolean).join(', ')} · ${entry.name} · ${identifiers(entry)}${entry.isNew ? ' · new since it was opened' : ''}`,
      bold: true,
      above: 6,
    },
    under(`Drains: ${entry.drains.join(', ') || 'none'}.${entry.holder ? ` Taken by ${entry.holder}.` : ''}`),
    ...findingTexts(entry).map((text) =>
      under(isSameZone ? shortTimes(text, Date.parse(read.asOf), read.zone) : text),
    ),
    under(
      entry.tried.length > 0
        ? `Tried: ${entry.tried.map((one) => tryText(one, read)).join(' ')}`
        : 'Not tried.',
    ),
    ...(entry.agreed ? [under(`Agreed: ${agreedText(entry.agreed, read)}`)] : []),
    ...(entry.due.length > 0
      ? [under(`Falls due: ${entry.due.map((due) => dueText(due, read)).join('; ')}.`)]
      : []),
    ...(answers ? [under(answers, true)] : []),
  ]
}
