import type { CheckInView } from '@/lib/domain/check-in.ts'
import { useSay } from '../words/say.tsx'

const tel = (phone: string) => `tel:${phone.replace(/[^\d+]/g, '')}`

/** The numbers to call, with one tap and always in reach of the thumb, whatever the screen above them is. */
export function CallBar({ clinic }: { clinic: CheckInView['clinic'] }) {
  const say = useSay()
  return (
    <aside className="reach" aria-label={say('whomToCall')}>
      <p>{say('emergencyShort')}</p>
      <div className="calls">
        <Call label={say('callClinic')} phone={clinic.phone} />
        {clinic.afterHoursPhone ? <Call label={say('callNights')} phone={clinic.afterHoursPhone} /> : null}
      </div>
    </aside>
  )
}

const Call = ({ label, phone }: { label: string; phone: string }) => (
  <a className="call" href={tel(phone)}>
    {label}{' '}
    <b>
      <bdi>{phone}</bdi>
    </b>
  </a>
)
