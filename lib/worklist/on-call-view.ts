import { weighsOnCall } from '../domain/call-person.ts'
import type { OnCallView } from '../domain/escalation.ts'
import { dayAndTime } from '../domain/local-time.ts'
import { Refusal } from '../domain/problem.ts'
import { type AfterHoursClinic, afterHoursClinic } from '../store/after-hours.ts'
import { drainsOf } from '../store/drains.ts'
import { type KeptFlag, livingFlagsOf } from '../store/flags.ts'
import type { Tx } from '../store/index.ts'
import { patientById } from '../store/patients.ts'
import { stored } from '../store/rows.ts'
import { hasIt, type OnCallLink } from './on-call-link.ts'
import { compareFlags } from './order.ts'

/**
 * What the link of a message shows. What was found and by when to act, without the patient's name, to whoever has the
 * link; who it is and whom to call only to the person who has said 'I have it'; once it is over, neither.
 */
export async function composeOnCallView(tx: Tx, link: OnCallLink, now: Date): Promise<OnCallView> {
  const { step, standing } = link
  const clinic = await afterHoursClinic(tx, standing.clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const isOver = standing.endedAt !== null
  const isYours = hasIt(link)
  const { rows: living } = await livingFlagsOf(tx, standing.patientId ?? '')
  const flags = isOver
    ? []
    : living.filter(({ state }) => state === 'open' || state === 'owed').toSorted(compareFlags)
  const labels = new Map(
    (await drainsOf(tx, standing.patientId ?? '', stored(now))).rows.map(({ id, label }) => [id, label]),
  )
  return {
    asOf: stored(now),
    clinic: { name: clinic.name, phone: clinic.phone, timeZone: clinic.timeZone, demo: clinic.demo },
    you: step.by ?? 'the person on call',
    state: isOver ? 'over' : isYours ? 'yours' : standing.haveItAt !== null ? 'others' : 'waiting',
    says: saysOf(link, clinic),
    urgency: standing.urgency,
    about: standing.about,
    actBy: earliest(flags),
    openedAt: standing.recordedAt,
    findings: flags.map(({ code, urgency, drain, finding, actBy, since }) => ({
      code,
      urgency,
      says: finding.says,
      drain: drain === null ? null : (labels.get(drain) ?? drain),
      actBy,
      since,
    })),
    identity: isYours && standing.patientId !== null ? await identityOf(tx, standing.patientId) : null,
  }
}

const earliest = (flags: readonly KeptFlag[]) =>
  flags.map(({ actBy }) => actBy).toSorted((a, b) => Date.parse(a) - Date.parse(b))[0] ?? null

function saysOf({ standing, steps }: OnCallLink, { timeZone }: AfterHoursClinic): string | null {
  const { endedAt, haveItAt, haveItBy } = standing
  if (endedAt !== null) return steps.findLast(({ kind }) => kind === 'ended')?.why ?? 'It has ended.'
  return haveItAt === null ? null : `${haveItBy} has it since ${dayAndTime(haveItAt, timeZone)}.`
}

async function identityOf(tx: Tx, patientId: string): Promise<OnCallView['identity']> {
  const patient = await patientById(tx, patientId)
  if (!patient) return null
  const { id, name, birthDate, recordNumber, phone, timeZone, language, interpreter, profile } = patient
  return {
    patientId: id,
    name,
    birthDate,
    recordNumber,
    phone,
    timeZone,
    language,
    interpreter,
    contacts: profile?.contacts ?? [],
    weighs: weighsOnCall(profile),
  }
}
