import Link from 'next/link'
import type { DischargeList } from '@/lib/domain/discharge.ts'
import { fullDate, when } from '@/lib/domain/local-time.ts'
import css from './discharges.module.css'

/** The latest that no longer wait, and what became of each. */
export function SettledList({ list, zone }: { list: DischargeList; zone: string }) {
  if (list.settled.length === 0) return null
  return (
    <section aria-labelledby="settled" className={css.settled}>
      <h2 id="settled">No longer waiting</h2>
      <ul>
        {list.settled.map(({ id, name, birthDate, recordNumber, patientId, why, by, settledAt }) => (
          <li key={id}>
            {name} · {fullDate(birthDate)} · {recordNumber}:{' '}
            {patientId ? <Link href={`/patients/${patientId}`}>enrolled</Link> : `set aside: ${why ?? ''}`},{' '}
            {by ? `${by}, ` : ''}
            {when(settledAt, Date.parse(list.asOf), zone)}
          </li>
        ))}
      </ul>
    </section>
  )
}
