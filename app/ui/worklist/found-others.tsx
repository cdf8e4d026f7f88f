'use client'

import Link from 'next/link'
import { useFound } from '@/lib/client/use-found.ts'
import { endLabels } from '@/lib/domain/labels.ts'
import { fullDate, when } from '@/lib/domain/local-time.ts'
import css from './worklist.module.css'

type Props = { wanted: string; onList: ReadonlySet<string>; now: number; zone: string }

/** Patients who are looked for and stand on no row: one who has just phoned, or whose follow-up has ended. */
export function FoundOthers({ wanted, onList, now, zone }: Props) {
  const { data, error } = useFound(wanted)
  const others = data?.filter(({ patientId }) => !onList.has(patientId)) ?? []
  if (error) return <p role="status">Patients without a row could not be looked for: {error.message}</p>
  if (others.length === 0) return null
  return (
    <section className={css.others} aria-labelledby="others">
      <h2 id="others">On no row</h2>
      <ul>
        {others.map(({ patientId, name, birthDate, recordNumber, lastHeardAt, followUpEnd }) => (
          <li key={patientId} data-other={patientId}>
            <Link href={`/patients/${patientId}`} data-row-link prefetch={false}>
              {name}
            </Link>{' '}
            {fullDate(birthDate)} · {recordNumber} ·{' '}
            {followUpEnd
              ? `follow-up has ended: ${endLabels[followUpEnd].toLowerCase()}`
              : lastHeardAt
                ? `nothing flagged; last heard ${when(lastHeardAt, now, zone)}`
                : 'nothing flagged; not heard'}
          </li>
        ))}
      </ul>
    </section>
  )
}
