'use client'

import type { Live } from '@/lib/client/use-live.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { clockTime, duration } from '@/lib/domain/local-time.ts'
import css from './connection.module.css'

type Props = { live: Live; failing: boolean; asOf: Instant; now: number; zone: string; onTry: () => void }

/** Says so when what is on screen no longer follows what happens, and how old it is. Else it says nothing. */
export function Connection({ live, failing, asOf, now, zone, onTry }: Props) {
  const lost = failing || live === 'lost'
  return (
    <div role="status" className={css.place}>
      {lost ? (
        <p className={css.lost}>
          <b>Not live.</b> What you see is as of {clockTime(asOf, zone)}, {duration(now - Date.parse(asOf))} ago. It is tried again by
          itself.
          <button type="button" onClick={onTry}>
            Try now
          </button>
        </p>
      ) : null}
    </div>
  )
}
