import { thresholdLabels } from '@/lib/domain/labels.ts'
import { dateAndTime } from '@/lib/domain/local-time.ts'
import type { OwnThreshold } from '@/lib/domain/rule-draft.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import { PatientHead } from '../patient-head.tsx'
import css from './rules.module.css'

/** What was set for single drains, by whom and why: what raises less than the clinic's set comes first. */
export function OwnTable({ own, zone }: { own: readonly OwnThreshold[]; zone: string }) {
  const silencing = own.filter(({ silences }) => silences).length
  return (
    <section aria-labelledby="own" className={audit.part}>
      <h2 id="own">Thresholds of single drains</h2>
      {own.length === 0 ? (
        <p>No drain of a patient in follow-up has a threshold of its own.</p>
      ) : (
        <>
          <p>
            {silencing === 0
              ? 'None of them silences anything.'
              : `${silencing} of ${own.length} raise less than the clinic’s set; they come first, the longest set before the others.`}{' '}
            For fever and pain the most cautious value of a patient’s drains holds.
          </p>
          <Scroll label="Thresholds of single drains, as a table">
            <table className={audit.table}>
              <thead>
                <tr>
                  <th scope="col">Patient</th>
                  <th scope="col">Drain</th>
                  <th scope="col">Threshold</th>
                  <th scope="col">Own</th>
                  <th scope="col">Clinic</th>
                  <th scope="col">It</th>
                  <th scope="col">Set</th>
                  <th scope="col">Why</th>
                </tr>
              </thead>
              <tbody>
                {own.map((one) => (
                  <tr key={`${one.patientId} ${one.drain} ${one.threshold}`}>
                    <PatientHead of={one} />
                    <td>{one.drain}</td>
                    <td>{thresholdLabels[one.threshold]}</td>
                    <td className={audit.number}>
                      <b>{one.value}</b>
                    </td>
                    <td className={audit.number}>{one.clinic}</td>
                    <td>{one.silences ? <b className={css.warning}>raises less</b> : 'raises no less'}</td>
                    <td>
                      {one.by}, {dateAndTime(one.at, zone)}
                    </td>
                    <td>{one.why}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </Scroll>
        </>
      )}
    </section>
  )
}
