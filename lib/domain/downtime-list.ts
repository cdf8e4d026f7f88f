import { capital } from './capital.ts'
import { byWhen, identifiers } from './handover-lines.ts'
import { dayAndTime, shortTimes, when } from './local-time.ts'
import { cautions, PROJECT } from './project.ts'
import type { Worklist, WorklistRow } from './worklist.ts'

/** What of a worklist is needed on paper. */
export type ListOnPaper = Pick<Worklist, 'asOf' | 'clinic' | 'rows' | 'unreadable'>

/** One row in words, as every list that is read without the server has it. */
export type RowOnPaper = {
  act: string
  who: string
  ids: string
  drains: string
  says: string[]
  more: string[]
}

/** A row in words: two identifiers and the number to call, by when, what stands, who had it. */
export function rowOnPaper(row: WorklistRow, { asOf, clinic }: ListOnPaper): RowOnPaper {
  const read = { asOf, zone: clinic.timeZone }
  const { label, by } = byWhen(row, read)
  const labelOf = (drain: string | null) => row.drains.find(({ id }) => id === drain)?.label
  const several = row.drains.length > 1
  const isSameZone = row.timeZone === clinic.timeZone
  return {
    act: [label, by].filter(Boolean).join(', '),
    who: row.name,
    ids: identifiers(row),
    drains: row.drains.map(({ label: name }) => name).join(', '),
    says: [
      ...(row.lookAgainWhy ? [`${capital(row.lookAgainWhy)}.`] : []),
      ...row.flags.map(({ drain, finding, state }) => {
        const lead = several ? labelOf(drain) : undefined
        const text = isSameZone ? shortTimes(finding.says, Date.parse(asOf), clinic.timeZone) : finding.says
        const owed = state === 'owed' ? ' Over by now, but nobody has spoken to them.' : ''
        return `${lead ? `${capital(lead)}: ` : ''}${text}${owed}`
      }),
    ],
    more: [
      ...(row.hold ? [`Taken by ${row.hold.name}.`] : []),
      ...(row.attempts > 0 ? [`Tried ${row.attempts} times, not reached.`] : []),
      ...(row.lastHeardAt ? [`Last heard ${when(row.lastHeardAt, Date.parse(asOf), clinic.timeZone)}.`] : []),
    ],
  }
}

const marks: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }
/** A text as it may stand in a page. */
export const escaped = (text: string): string => text.replace(/[&<>"]/g, (mark) => marks[mark] ?? mark)

/** The look of the list, by itself: it is read where nothing else can be fetched. */
export const listStyle = `body{font:14px/1.4 system-ui,sans-serif;color:#1d2733;background:#fff;margin:1rem}
h1{font-size:1.4rem;margin:0}h2{font-size:1.05rem;margin:1rem 0 .25rem}p{margin:0 0 .25rem}
table{border-collapse:collapse;width:100%}th,td{border-top:1px solid #b9b4a6;padding:.25rem .5rem;text-align:left;vertical-align:top}
thead th{color:#3c444d}td:nth-child(1){width:15%}tbody th{width:20%}td:nth-child(5){width:18%}
.ids{font-weight:400}.notice{border:2px solid #6d1a36;padding:.5rem .75rem;margin:0 0 1rem}.notice p:first-child{font-weight:700}
@page{margin:12mm 10mm}@media print{body{margin:0;font-size:9pt}tr{break-inside:avoid}.screen{display:none}}`

/** The list as markup, without the page around it. Every text of a person is escaped. */
export function listMarkup(list: ListOnPaper): string {
  const { clinic, rows, unreadable, asOf } = list
  const part = (title: string, own: readonly WorklistRow[]) =>
    own.length === 0
      ? ''
      : `<h2>${escaped(title)} · ${own.length}</h2><table><thead><tr><th scope="col">Act by</th><th scope="col">Patient</th><th scope="col">Drains</th><th scope="col">What stands</th><th scope="col">Tried; what was done since</th></tr></thead><tbody>${own.map((row) => rowMarkup(rowOnPaper(row, list))).join('')}</tbody></table>`
  return [
    `<h1>Worklist · ${escaped(clinic.name)}</h1>`,
    `<p>As of <b>${escaped(dayAndTime(asOf, clinic.timeZone))}</b>. It does not change by itself.</p>`,
    clinic.demo ? '<p>Demo scenario: every person and every report here is invented.</p>' : '',
    unreadable.length > 0
      ? `<p><b>${unreadable.length} could not be read and may be missing below.</b></p>`
      : '',
    rows.length === 0 ? '<p>Nobody to call at that time.</p>' : '',
    part(
      'To call',
      rows.filter((row) => row.part === 'clinical'),
    ),
    part(
      'Upkeep',
      rows.filter((row) => row.part === 'upkeep'),
    ),
    `<p>${escaped(cautions)}</p>`,
  ].join('\n')
}

const rowMarkup = ({ act, who, ids, drains, says, more }: RowOnPaper): string =>
  `<tr><td><b>${escaped(act)}</b></td><th scope="row">${escaped(who)}<br><span class="ids">${escaped(ids)}</span></th><td>${escaped(drains)}</td><td>${says.map((text) => `<p>${escaped(text)}</p>`).join('')}</td><td>${more.map((text) => `<p>${escaped(text)}</p>`).join('')}</td></tr>`

/** The whole page as one file that needs nothing beside it. */
export const listPage = (list: ListOnPaper): string =>
  `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(PROJECT)}: worklist</title>
<style>${listStyle}</style>
</head>
<body>
${listMarkup(list)}
</body>
</html>
`
