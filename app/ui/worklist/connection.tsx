'use client'

import { isRefusal } from '@/lib/client/ask.ts'
import type { Live } from '@/lib/client/use-live.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { clockTime, duration } from '@/lib/domain/local-time.ts'
import css from './connection.module.css'

type Props = { live: Live; error: Error | null; asOf: Instant; now: number; zone: string; onTry: () => void }

/** Says so when what is on screen no longer follows what happens, and how old it is. Else it says nothing. */
export function Connection({ live, error, asOf, now, zone, onTry }: Props) {
  const lost = error !== null || live === 'lost'
  if (isRefusal(error, 'not-signed-in'))
    return (
      <div role="status">
        <p className={css.lost}>
          <b>Your session has ended.</b> What you see is as of {clockTime(asOf, zone)} and no longer followed.
          <a className="button" href="/sign-in">
            Sign in again
          </a>
        </p>
      </div>
    )
  return (
    <div role="status">
      {lost ? (
        <p className={css.lost}>
          <b>Not live.</b> What you see is as of {clockTime(asOf, zone)}, {duration(now - Date.parse(asOf))}{' '}
          ago. It is tried again by itself.
          <button type="button" onClick={onTry}>
            Try now
          </button>
        </p>
      ) : null}
    </div>
  )
}
