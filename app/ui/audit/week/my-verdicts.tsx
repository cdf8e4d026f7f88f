import { dayAndTime } from '@/lib/domain/local-time.ts'
import { harmLabels, trulyLabels, verdictLabels } from '@/lib/domain/review-page.ts'
import type { CallVerdict } from '@/lib/domain/week-page.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { PatientHead } from '../patient-head.tsx'

/** What the audit said of the flags for which somebody has called. */
export function MyVerdicts({ verdicts, zone }: { verdicts: readonly CallVerdict[]; zone: string }) {
  return (
    <div className={audit.screen}>
      <h1>Verdicts on my calls</h1>
      <p className={audit.about}>
        What the weekly audit said of flags for which you called, in the last 120 days. It judges the flag,
        not the call. Only a sample is read, and a fifth waits for its second reading.
      </p>
      {verdicts.length === 0 ? (
        <p>None yet.</p>
      ) : (
        <Scroll label="Verdicts on my calls, as a table">
          <table className={audit.table}>
            <thead>
              <tr>
                <th scope="col">Flag</th>
                <th scope="col">Patient</th>
                <th scope="col">Verdict</th>
              </tr>
            </thead>
            <tbody>
              {verdicts.map((one) => (
                <tr key={one.flagId}>
                  <td>
                    <b>{one.flag}</b>
                    <span className={audit.quiet}>opened {dayAndTime(one.openedAt, zone)}</span>
                  </td>
                  <PatientHead of={one} />
                  <td>
                    <b>{verdictLabels[one.verdict]}</b>
                    {one.truly ? `; really the matter: ${trulyLabels[one.truly].toLowerCase()}` : ''};{' '}
                    {harmLabels[one.harm].toLowerCase()}
                    {one.note ? <p>“{one.note}”</p> : null}
                    <div className={audit.quiet}>
                      {one.by}, {dayAndTime(one.at, zone)}
                    </div>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
    </div>
  )
}
