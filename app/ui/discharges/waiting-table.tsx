import Link from 'next/link'
import type { Discharge } from '@/lib/domain/discharge.ts'
import { kindLabels } from '@/lib/domain/labels.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { Scroll } from '../parts/scroll.tsx'
import css from './discharges.module.css'

type Props = { waiting: readonly Discharge[]; onSetAside: (discharge: Discharge) => void }

const since = (days: number) => (days === 0 ? 'today' : days === 1 ? '1 day' : `${days} days`)

/** Those who wait, the oldest first. */
export function WaitingTable({ waiting, onSetAside }: Props) {
  return (
    <Scroll label="Not enrolled yet">
      <table className={css.table}>
        <caption className="for-reader">Not enrolled yet, the longest waiting first</caption>
        <thead>
          <tr>
            <th scope="col">Home since</th>
            <th scope="col">Patient</th>
            <th scope="col">Drain</th>
            <th scope="col">Phone</th>
            <th scope="col">Note</th>
            <th scope="col">What to do</th>
          </tr>
        </thead>
        <tbody>
          {waiting.map((discharge) => (
            <tr key={discharge.id}>
              <td>
                <strong>{since(discharge.days)}</strong>
                <br />
                {fullDate(discharge.dischargedOn)}
              </td>
              <th scope="row">
                {discharge.name}
                <br />
                <span className={css.ids}>
                  {fullDate(discharge.birthDate)} · {discharge.recordNumber}
                </span>
              </th>
              <td>{discharge.drainKind ? kindLabels[discharge.drainKind] : 'not said'}</td>
              <td>{discharge.phone ?? 'not known'}</td>
              <td className={css.note}>{discharge.note}</td>
              <td className={css.doing}>
                {discharge.formerPatientId ? (
                  <Link className="button" href={`/patients/${discharge.formerPatientId}`}>
                    Earlier chart<span className="for-reader"> of {discharge.name}</span>
                  </Link>
                ) : (
                  <Link
                    className="button"
                    data-main
                    href={`/patients/new?discharge=${encodeURIComponent(discharge.id)}`}
                  >
                    Enrol<span className="for-reader"> {discharge.name}</span>
                  </Link>
                )}
                <button type="button" onClick={() => onSetAside(discharge)}>
                  Set aside<span className="for-reader"> {discharge.name}</span>
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
