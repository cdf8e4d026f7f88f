'use client'

import { isRefusal } from '@/lib/client/ask.ts'
import { browserNow } from '@/lib/client/browser-clock.ts'
import type { Live } from '@/lib/client/use-live.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { clockTime, duration } from '@/lib/domain/local-time.ts'
import css from './connection.module.css'

type Props = { live: Live; error: Error | null; asOf: Instant; now: number; zone: string; onTry: () => void }

/** When the server was last heard, by its own time: the device's clock says only how long ago that is. */
export const lostAt = (heardMs: number, deviceMs: number, now: number): number =>
  now - Math.max(0, deviceMs - heardMs)

/**
 * Says so when what is on screen no longer follows what happens: how old it is, and since when the connection is
 * lost. Else it says nothing.
 */
export function Connection({ live, error, asOf, now, zone, onTry }: Props) {
  const lost = error !== null || live.state === 'lost'
  const age = `${clockTime(asOf, zone)}, ${duration(now - Date.parse(asOf))} ago`
  if (isRefusal(error, 'not-signed-in'))
    return (
      <div role="status">
        <p className={css.lost}>
          <b>Your session has ended.</b> What you see is as of {age} and no longer followed.
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
          <span>
            <b>Not live.</b> What you see is as of {age}
            {live.state === 'lost' && live.heardMs !== null
              ? `; connection lost ${clockTime(lostAt(live.heardMs, browserNow().getTime(), now), zone)}`
              : ''}
            . It is tried again by itself.
          </span>
          <button type="button" onClick={onTry}>
            Try now
          </button>
        </p>
      ) : null}
    </div>
  )
}
