import Link from 'next/link'
import type { Instant } from '@/lib/domain/instant.ts'
import { roleLabels } from '@/lib/domain/labels.ts'
import { PROJECT } from '@/lib/domain/project.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import { countWaiting } from '@/lib/intake/discharges.ts'
import { ClinicTime } from './clinic-time.tsx'
import css from './header.module.css'
import { SignOut } from './sign-out.tsx'

export type Room =
  | 'worklist'
  | 'handover'
  | 'numbers'
  | 'patient'
  | 'enrol'
  | 'discharges'
  | 'import'
  | 'audit'
  | 'settings'
type Clinic = { name: string; timeZone: string; demo: boolean }
type Props = { staff: StaffMember; clinic: Clinic; asOf: Instant; room: Room }

const rooms = [
  { room: 'worklist', href: '/', name: 'Worklist', action: 'read-worklist' },
  { room: 'handover', href: '/handover', name: 'Handover', action: 'hand-over' },
  { room: 'enrol', href: '/patients/new', name: 'Enrol a patient', action: 'enrol' },
  { room: 'discharges', href: '/discharges', name: 'Discharges', action: 'keep-discharges' },
  { room: 'import', href: '/import', name: 'Import', action: 'import-reports' },
  { room: 'numbers', href: '/numbers', name: 'Numbers', action: 'read-numbers' },
  { room: 'audit', href: '/audit', name: 'Audit', action: 'audit' },
  // Whoever does not audit enters there what became of the patients.
  {
    room: 'audit',
    href: '/audit/outcomes',
    name: 'Outcomes',
    action: 'record-outside-event',
    unless: 'audit',
  },
  { room: 'settings', href: '/settings', name: 'Settings', action: 'edit-clinic' },
] as const

/**
 * The head of every staff page: the project, the rooms that this person may enter, how many discharged people
 * are not enrolled yet, the clinic and its time, and who is signed in.
 */
export async function Header({ staff, clinic, asOf, room }: Props) {
  const waiting = may(staff.role, 'keep-discharges') ? await countWaiting(staff) : 0
  return (
    <header className={css.header}>
      <div className={css.bar}>
        <p className={css.name}>{PROJECT}</p>
        <nav aria-label="Rooms" className={css.rooms}>
          {rooms
            .filter((one) => may(staff.role, one.action) && !('unless' in one && may(staff.role, one.unless)))
            .map(({ room: one, href, name }) => (
              // Fetched when it is entered, not before: who opens a room stands in the access record.
              <Link key={href} href={href} prefetch={false} aria-current={one === room ? 'page' : undefined}>
                {name}
                {one === 'discharges' && waiting > 0 ? <> {waiting} waiting</> : null}
              </Link>
            ))}
        </nav>
        <p className={css.who}>
          <ClinicTime asOf={asOf} zone={clinic.timeZone} /> · {clinic.name} · {staff.name},{' '}
          {roleLabels[staff.role]}
        </p>
        <SignOut />
      </div>
      {clinic.demo ? (
        <p className={css.demo}>Demo scenario: every person and every report here is invented.</p>
      ) : null}
    </header>
  )
}
