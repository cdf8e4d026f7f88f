import Link from 'next/link'
import type { HandoverLine } from '@/lib/domain/handover.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { dayAndTime, when } from '@/lib/domain/local-time.ts'
import css from './handover.module.css'

type Props = { earlier: readonly HandoverLine[]; asOf: Instant; zone: string }

/** The handovers before this one; each opens as it was signed. */
export function Earlier({ earlier, asOf, zone }: Props) {
  if (earlier.length === 0) return null
  return (
    <section aria-labelledby="earlier" className={css.earlier}>
      <h2 id="earlier">Earlier handovers</h2>
      <ul>
        {earlier.map(({ id, openedAt, givenBy, takenBy, signedAt, withdrawnAt, withdrawnBy, accepted }) => (
          <li key={id}>
            {signedAt ? (
              <>
                <Link href={`/handover/${id}`} prefetch={false}>
                  {dayAndTime(signedAt, zone)}
                </Link>
                : {givenBy} to {takenBy}, {accepted} accepted by name
              </>
            ) : (
              <>
                {dayAndTime(openedAt, zone)}: {givenBy}; withdrawn
                {withdrawnAt ? ` ${when(withdrawnAt, Date.parse(asOf), zone)}` : ''} by {withdrawnBy}
              </>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
