'use client'

import { useEffect, useMemo, useState } from 'react'
import type { Earlier } from '@/lib/client/use-patient-page.ts'
import type { SheetTarget } from '@/lib/domain/call-sheet-line.ts'
import { capital } from '@/lib/domain/capital.ts'
import { reporterLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Report } from '@/lib/domain/record.ts'
import { reportLines } from '@/lib/domain/report-text.ts'
import { replacements } from '@/lib/domain/standing-reports.ts'
import { noneSays } from '../timeline/reach.ts'
import { jumpTo, useJump } from './call-sheet-jump.ts'
import { MovedList } from './moved-list.tsx'
import css from './patient.module.css'
import { useMore } from './use-more.tsx'

type Act = ((report: Report) => void) | null
type Acts = { page: PatientPage; onCorrect: Act; onMove: Act }
type Props = Acts & { earlier: Earlier }

/** The reports, the newest first; what a correction replaced stands struck out below it. */
export function ReportsList({ page, earlier: before, onCorrect, onMove }: Props) {
  const { reports } = page.record
  const { standing, earlier } = useMemo(() => byReplacement(reports), [reports])
  const [shown, more] = useMore(
    standing,
    'reports',
    (report, target) => target.to === 'report' && target.id === report.id,
  )
  useEarlierJump(page, before)
  return (
    <section aria-labelledby="reports" className={css.section}>
      <h2 id="reports">Reports</h2>
      <MovedList page={page} />
      {standing.length === 0 ? <p className={css.quiet}>{noneSays(page)}</p> : null}
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
      {page.leftOut ? <EarlierReports leftOut={page.leftOut} earlier={before} /> : null}
    </section>
  )
}

/** How many reports came before those that are here, and the way to them. */
function EarlierReports({
  leftOut: { reports },
  earlier: { want, again, isReading, hasFailed },
}: {
  leftOut: NonNullable<PatientPage['leftOut']>
  earlier: Earlier
}) {
  return (
    <p>
      {reports === 1 ? 'One earlier report is' : `${reports} earlier reports are`} not listed here yet.{' '}
      <button type="button" data-quiet aria-disabled={isReading} onClick={hasFailed ? again : want}>
        {isReading ? 'Reading them …' : 'Read them'}
      </button>{' '}
      {hasFailed ? <span role="alert">They could not be read. Try again.</span> : null}
    </p>
  )
}

/** A number of the call sheet that comes from an earlier report: that is read first, and then led to. */
function useEarlierJump({ record, leftOut }: PatientPage, { want }: Earlier): void {
  const [wanted, setWanted] = useState<SheetTarget | null>(null)
  useJump((target) => {
    const isHere = target.to !== 'report' || record.reports.some(({ id }) => id === target.id)
    if (isHere || leftOut === null) return false
    want()
    setWanted(target)
    return true
  })
  useEffect(() => {
    if (wanted === null || leftOut !== null) return
    setWanted(null)
    jumpTo(wanted)
  }, [wanted, leftOut])
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

type OneProps = Acts & { report: Report; earlier: Report[] }

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
