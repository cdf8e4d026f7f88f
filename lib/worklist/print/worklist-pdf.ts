import { type ListOnPaper, type RowOnPaper, rowOnPaper } from '../../domain/downtime-list.ts'
import { dayAndTime } from '../../domain/local-time.ts'
import { cautions, PROJECT } from '../../domain/project.ts'
import type { WorklistRow } from '../../domain/worklist.ts'
import { type Line, type PaperSize, paperOf } from './paper.ts'

/** The worklist on paper, for when there is no server. */
export function worklistPdf(list: ListOnPaper, size: PaperSize): Promise<Uint8Array> {
  const { clinic, asOf, rows, unreadable } = list
  const at = dayAndTime(asOf, clinic.timeZone)
  const part = (title: string, own: readonly WorklistRow[]): Line[][] =>
    own.map((row, i) => [
      ...(i === 0 ? [{ text: `${title} · ${own.length}`, size: 11, bold: true, above: 10 }] : []),
      ...lines(rowOnPaper(row, list)),
    ])
  const blocks: Line[][] = [
    [
      { text: `Worklist · ${clinic.name}`, size: 15, bold: true },
      { text: `As of ${at}. It does not change by itself.` },
      ...(clinic.demo ? [{ text: 'Demo scenario: every person and every report here is invented.' }] : []),
      ...(unreadable.length > 0
        ? [{ text: `${unreadable.length} could not be read and may be missing below.`, bold: true }]
        : []),
      ...(rows.length === 0 ? [{ text: 'Nobody to call at that time.' }] : []),
    ],
    ...part(
      'To call',
      rows.filter((row) => row.part === 'clinical'),
    ),
    ...part(
      'Upkeep',
      rows.filter((row) => row.part === 'upkeep'),
    ),
  ]
  return paperOf(`${PROJECT}: worklist`, size, blocks, {
    cautions,
    left: `${clinic.name} · worklist as of ${at}`,
  })
}

const lines = ({ act, who, ids, drains, says, more }: RowOnPaper): Line[] => [
  { text: `${act} · ${who} · ${ids}`, bold: true, above: 6 },
  ...[`Drains: ${drains || 'none'}.`, ...says, more.join(' ')]
    .filter(Boolean)
    .map((text) => ({ text, indent: 12 })),
]
