'use client'

import { useMemo } from 'react'
import { capital } from '@/lib/domain/capital.ts'
import { reporterLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Report } from '@/lib/domain/record.ts'
import { reportLines } from '@/lib/domain/report-text.ts'
import { replacements } from '@/lib/domain/standing-reports.ts'
import { MovedList } from './moved-list.tsx'
import css from './patient.module.css'
import { useMore } from './use-more.tsx'

type Act = ((report: Report) => void) | null
type Props = { page: PatientPage; onCorrect: Act; onMove: Act }

/** The reports, the newest first; what a correction replaced stands struck out below it. */
export function ReportsList({ page, onCorrect, onMove }: Props) {
  const { reports } = page.record
  const { standing, earlier } = useMemo(() => byReplacement(reports), [reports])
  const [shown, more] = useMore(
    standing,
    'reports',
    (report, target) => target.to === 'report' && target.id === report.id,
  )
  return (
    <section aria-labelledby="reports" className={css.section}>
      <h2 id="reports">Reports</h2>
      <MovedList page={page} />
      {standing.length === 0 ? <p className={css.quiet}>None so far.</p> : null}
      <ul className={css.list}>
        {shown.map((report) => (
          <li key={report.id} id={`report-${report.id}`}>
            <OneReport
              report={report}
              page={page}
              earlier={earlier.get(report.id) ?? []}
              onCorrect={onCorrect}
              onMove={onMove}
            />
          </li>
        ))}
      </ul>
      {more}
    </section>
  )
}

/** The reports that count, the newest first, and by the id of each what it replaced. */
function byReplacement(reports: readonly Report[]) {
  const replaced = replacements(reports)
  const earlier = new Map<string, Report[]>()
  for (const report of reports) {
    const by = replaced.get(report.id)
    if (by) earlier.set(by, [...(earlier.get(by) ?? []), report])
  }
  const standing = reports
    .filter(({ id }) => !replaced.has(id))
    .toSorted((a, b) => Date.parse(b.receivedAt) - Date.parse(a.receivedAt))
  return { standing, earlier }
}

type OneProps = Props & { report: Report; earlier: Report[] }

function OneReport({ report, page, earlier, onCorrect, onMove }: OneProps) {
  const about = page.reports[report.id]
  const zone = page.clinic.timeZone
  const naming = {
    nameOf: (drain: string) => capital(page.labels[drain]?.label ?? drain),
    now: Date.parse(report.receivedAt),
    zone: page.record.timeZone,
  }
  const from = about ? reporterLabels[about.reporter] : 'not known who'
  return (
    <article>
      <h3>
        {dayAndTime(report.receivedAt, zone)}
        <span className={css.plain}>
          {' '}
          · {from}
          {about?.sentBy ? ` (${about.sentBy})` : ''}
          {about?.enteredBy ? `, entered by ${about.enteredBy}` : ''}
          {earlier.length > 0 ? ' · corrected' : ''}
        </span>
        {onCorrect ? (
          <button type="button" data-quiet className={css.inline} onClick={() => onCorrect(report)}>
            Correct<span className="for-reader"> the report of {dayAndTime(report.receivedAt, zone)}</span>
          </button>
        ) : null}
        {onMove ? (
          <button type="button" data-quiet className={css.inline} onClick={() => onMove(report)}>
            Not theirs
            <span className="for-reader">: move the report of {dayAndTime(report.receivedAt, zone)}</span>
          </button>
        ) : null}
      </h3>
      {reportLines(report, naming).map((line) => (
        <p key={line}>{line}</p>
      ))}
      {about?.note ? <p>“{about.note}”</p> : null}
      {earlier.map((old) => (
        <div key={old.id} className={css.old}>
          <p>Before, received {dayAndTime(old.receivedAt, zone)}:</p>
          {reportLines(old, naming).map((line) => (
            <p key={line}>
              <del>{line}</del>
            </p>
          ))}
        </div>
      ))}
    </article>
  )
}
