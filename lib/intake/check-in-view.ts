import { now as clock } from '../clock.ts'
import type { CheckInView } from '../domain/check-in.ts'
import { clinicById } from '../store/clinics.ts'
import { readAtOf } from '../store/heard.ts'
import { snapshot, type Tx } from '../store/index.ts'
import type { StoredLink } from '../store/links.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { adviceLimits } from './advice-limits.ts'
import { textsInForce } from './advice-texts-in-force.ts'
import { checkInDrains } from './check-in-drains.ts'
import { checkInSession, noteSessionOpened } from './open-link.ts'
import { correctable } from './own-reports.ts'
import { noPatient } from './patient-of.ts'

/**
 * What the check-in page shows to whoever holds a session of a patient's link: little, and nothing of staff.
 * @throws Refusal link-not-valid
 */
export async function checkInView(session: string, now: Date = clock()): Promise<CheckInView> {
  const link = await checkInSession(session, now)
  await noteSessionOpened(link, now)
  return snapshot(async (tx) => {
    const composed = await composeRecord(tx, link.patientId, now)
    const clinic = await clinicById(tx, link.clinicId)
    if (!clinic || !composed) throw noPatient()
    const { patient } = composed
    const { id, name, phone, afterHoursPhone, timeZone, hours, demo } = clinic
    const drains = await checkInDrains(tx, composed, now)
    const inPlace = drains.map((drain) => drain.id)
    return {
      asOf: stored(now),
      clinic: { id, name, phone, afterHoursPhone, timeZone, hours, demo },
      patient: {
        id: patient.id,
        firstName: firstName(patient.name),
        timeZone: patient.timeZone,
        language: patient.profile?.checkInLanguage ?? 'en',
      },
      sender: { kind: link.holder, name: link.holderName, maySee: link.maySee },
      limits: await adviceLimits(tx, composed, inPlace, now),
      texts: await textsInForce(tx, clinic.id),
      drains: link.maySee ? drains : drains.map((drain) => ({ ...drain, recent: [] })),
      ownReports: link.maySee ? correctable(composed, link, now) : [],
      ...(await lastWord(tx, composed, link)),
      followUpEndedAt: patient.followUpEndedAt,
    }
  })
}

/** When the last report came in (of a link that may not see: the last by that link), and whether staff have looked since. */
async function lastWord(
  tx: Tx,
  { patient, reports }: Composed,
  { id, maySee }: StoredLink,
): Promise<Pick<CheckInView, 'lastReportAt' | 'lastReadAt'>> {
  const lastReportAt = reports.findLast(({ linkId }) => maySee || linkId === id)?.receivedAt ?? null
  const readAt = await readAtOf(tx, patient.id)
  const isRead = lastReportAt !== null && readAt !== null && Date.parse(readAt) >= Date.parse(lastReportAt)
  return { lastReportAt, lastReadAt: isRead ? readAt : null }
}

/** Of `Marlow, Ada` and of `Ada Marlow` alike: Ada. */
const firstName = (name: string): string => {
  const given = name.includes(',') ? (name.split(',')[1] ?? name) : name
  return given.trim().split(/\s+/)[0] ?? name
}
