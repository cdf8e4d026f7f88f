import Link from 'next/link'
import { findingLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import type { DifferingPatient, ReplayedFlag, ReplayResult } from '@/lib/domain/replay.ts'
import { Scroll } from '../../parts/scroll.tsx'
import audit from '../audit.module.css'
import css from './replay.module.css'

/** The patients of whom the two rule sets say something else, the most urgent first; each opens on both courses. */
export function DifferingList({ id, result }: { id: string; result: ReplayResult }) {
  const { differ, differing } = result
  return (
    <section aria-labelledby="differ">
      <h2 id="differ">Patients who differ: {differing}</h2>
      {differing > differ.length ? (
        <p className={audit.quiet}>The {differ.length} with the most urgent differences are listed.</p>
      ) : null}
      {differing === 0 ? <p>Both say the same of every patient.</p> : null}
      {differ.length > 0 ? (
        <Scroll label="Patients who differ, as a table">
          <table className={`${audit.table} ${css.table}`}>
            <thead>
              <tr>
                {['Patient', 'Born', 'Record number', 'Gained', 'Lost', 'At another time or urgency'].map(
                  (word) => (
                    <th scope="col" key={word}>
                      {word}
                    </th>
                  ),
                )}
              </tr>
            </thead>
            <tbody>
              {differ.map((patient) => (
                <Row key={patient.patientId} id={id} patient={patient} />
              ))}
            </tbody>
          </table>
        </Scroll>
      ) : null}
    </section>
  )
}

function Row({ id, patient }: { id: string; patient: DifferingPatient }) {
  const { patientId, name, birthDate, recordNumber, gained, lost, moved } = patient
  return (
    <tr>
      <th scope="row">
        <Link
          href={`/audit/replays/${encodeURIComponent(id)}?patient=${encodeURIComponent(patientId)}`}
          prefetch={false}
        >
          {name}
        </Link>
      </th>
      <td className={audit.id}>{fullDate(birthDate)}</td>
      <td className={audit.id}>{recordNumber}</td>
      <td>{counted(gained)}</td>
      <td>{counted(lost)}</td>
      <td>{counted(moved.map(({ draft }) => draft))}</td>
    </tr>
  )
}

/** Findings with how often, the most urgent word first. @example 'Output decline (within 1 hour) × 2' */
function counted(flags: readonly ReplayedFlag[]): string {
  const counts = new Map<string, number>()
  for (const { code, urgency } of flags) {
    const words = `${findingLabels[code]} (${urgencyLabels[urgency].toLowerCase()})`
    counts.set(words, (counts.get(words) ?? 0) + 1)
  }
  return [...counts].map(([words, count]) => (count > 1 ? `${words} × ${count}` : words)).join(', ')
}
