import type { CheckInView } from '@/lib/domain/check-in.ts'
import { isOpen, nextOpening } from '@/lib/domain/opening.ts'
import { localeOf } from '../words/locale.ts'
import { useSay } from '../words/say.tsx'

/** Whether somebody reads reports now; where nobody does, until when, and whom to call. */
export function OpenNow({ clinic, now }: { clinic: CheckInView['clinic']; now: Date }) {
  const say = useSay()
  const { hours, timeZone, phone, afterHoursPhone } = clinic
  if (!hours) return null
  if (isOpen(hours, timeZone, now.getTime())) return <p className="open-now">{say('openNow')}</p>
  /** By the clinic's clock, so that the server and the phone say the same. */
  const hourOf = (instant: string) =>
    new Date(instant).toLocaleString(localeOf(say.language), {
      timeZone,
      weekday: 'long',
      hour: 'numeric',
      minute: '2-digit',
    })
  const next = nextOpening(hours, timeZone, now.getTime())
  return (
    <p className="open-now">
      {/* The server's words for an hour may part by a space from the phone's. */}
      <b suppressHydrationWarning>
        {next ? say('closedNow', { when: hourOf(next) }) : say('closedNowNoNext')}
      </b>{' '}
      {say('closedNowCall', { phone: afterHoursPhone ?? phone })}
    </p>
  )
}
