import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { ClinicSettings, type ClinicSettingsPage } from '../domain/clinic-hours.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { lastAccessOf } from '../store/access-records.ts'
import { answerOnce } from '../store/answered.ts'
import { type Clinic, clinicById, saveClinic } from '../store/clinics.ts'
import { read, type Tx, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { parse } from './parse.ts'

const ACTION = 'edit-clinic'

/** What the clinic's own staff set of it, and who changed it last. */
export async function readClinicSettings({ clinicId }: StaffMember): Promise<ClinicSettingsPage> {
  return read(async (tx) => {
    const last = await lastAccessOf(tx, clinicId, ACTION)
    return {
      settings: settingsOf(await ownClinic(tx, clinicId)),
      changedAt: last?.at ?? null,
      changedBy: last?.actor ?? null,
    }
  })
}

/**
 * Changes phone numbers, opening hours and quiet hours. The access record says who, when and what.
 * @throws Refusal invalid-input, key-reused
 */
export function saveClinicSettings(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<ClinicSettingsPage> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { clinic: body } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const settings = parse('settings', ClinicSettings, body)
      const before = settingsOf(await ownClinic(tx, clinicId))
      await saveClinic(tx, clinicId, settings)
      await recordAccess(tx, {
        clinicId,
        at: stored(now),
        staffId: staff.id,
        actor: staff.name,
        role: staff.role,
        action: ACTION,
        patientId: null,
        what: `changed ${changesOf(before, settings) || 'nothing'}`,
      })
      return { settings, changedAt: stored(now), changedBy: staff.name }
    }),
  )
}

async function ownClinic(tx: Tx, clinicId: string): Promise<Clinic> {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  return clinic
}

const settingsOf = ({ phone, afterHoursPhone, hours, quiet }: Clinic): ClinicSettings => ({
  phone,
  afterHoursPhone,
  hours,
  quiet,
})

const labels: Readonly<Record<keyof ClinicSettings, string>> = {
  phone: 'the phone number',
  afterHoursPhone: 'the after-hours number',
  hours: 'the opening hours',
  quiet: 'the quiet hours',
}

/** What is other than before, each with both values, so that the record alone tells what it was. */
const changesOf = (before: ClinicSettings, after: ClinicSettings): string =>
  (Object.keys(labels) as (keyof ClinicSettings)[])
    .filter((name) => JSON.stringify(before[name]) !== JSON.stringify(after[name]))
    .map((name) => `${labels[name]} from ${JSON.stringify(before[name])} to ${JSON.stringify(after[name])}`)
    .join('; ')
