import { now as clock } from '../../clock.ts'
import { INQUIRY_DAYS, NewInquiryAnswer, type OutcomeSaved } from '../../domain/outcomes-page.ts'
import type { InquiryAbout } from '../../domain/outside-event.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { tell } from '../../notify/bus.ts'
import { answerOnce } from '../../store/answered.ts'
import { type Tx, write } from '../../store/index.ts'
import { addAnswer } from '../../store/inquiries.ts'
import { outsideEventsOf } from '../../store/outside-events.ts'
import type { Patient } from '../../store/patients.ts'
import { newId, stored } from '../../store/rows.ts'
import { parse } from '../week/parse.ts'
import { addEventsWithin, note, patientOf } from './event-within.ts'

/**
 * Answers what became of a patient by 30 days, or by the end: with the events that it brings, with none, or with not
 * known, which no figure takes for none. Answered again, the newest answer counts. A death among the events ends follow-up.
 * @throws Refusal not-found, invalid-input, conflict (not due yet; the events on record say otherwise), key-reused
 */
export async function answerInquiry(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string = newId(),
  now: Date = clock(),
): Promise<OutcomeSaved> {
  const saved = await write((tx) => answerInquiryWithin(tx, staff, patientId, body, key, now))
  if (saved.endedFollowUp) tell(staff.clinicId, { patientId, kind: 'follow-up' })
  return saved
}

/** The same within the caller's transaction. */
export function answerInquiryWithin(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  body: unknown,
  key: string,
  now: Date,
): Promise<OutcomeSaved> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { inquiry: body, patientId } }
  return answerOnce(tx, request, stored(now), () => answer(tx, staff, patientId, body, now))
}

async function answer(
  tx: Tx,
  staff: StaffMember,
  patientId: string,
  body: unknown,
  now: Date,
): Promise<OutcomeSaved> {
  const { about, answer, note: words, events: told = [] } = parse('answer', NewInquiryAnswer, body)
  const { clinicId } = staff
  const patient = await patientOf(tx, clinicId, patientId)
  const until = dueAt(patient, about)
  if (until === null) throw new Refusal('conflict', 'Follow-up has not ended: its end is asked about then.')
  if (until > now.getTime())
    throw new Refusal(
      'conflict',
      `This is asked ${INQUIRY_DAYS} days after enrolment, and those are not over.`,
    )
  if (answer !== 'events' && told.length > 0)
    throw new Refusal('invalid-input', 'The answer is not as it is accepted.', [
      { field: 'events', message: 'accepted only where the answer is: events' },
    ])
  const added = await addEventsWithin(tx, staff, patient, told, now, (i, field) => `events[${i}].${field}`)
  await refuseOtherwise(tx, patientId, about, answer, until)
  const at = stored(now)
  const id = await addAnswer(tx, {
    clinicId,
    patientId,
    about,
    answer,
    note: words || null,
    recordedAt: at,
    recordedBy: staff.id,
  })
  await note(tx, staff, patientId, at, `answered what became of the patient (${about}): ${answer}`)
  return { ...added, answer: id }
}

/** When it is asked, in ms; null where that is not known yet. */
export function dueAt(
  { enrolledAt, followUpEndedAt }: Pick<Patient, 'enrolledAt' | 'followUpEndedAt'>,
  about: InquiryAbout,
): number | null {
  if (about === '30-days') return Date.parse(enrolledAt) + INQUIRY_DAYS * 86_400_000
  return followUpEndedAt === null ? null : Date.parse(followUpEndedAt)
}

/** An answer must not gainsay the events on record. */
async function refuseOtherwise(
  tx: Tx,
  patientId: string,
  about: InquiryAbout,
  answer: NewInquiryAnswer['answer'],
  untilMs: number,
): Promise<void> {
  const { rows } = await outsideEventsOf(tx, patientId)
  const n = rows.filter(
    (event) => event.withdrawnAt === null && (about === 'end' || Date.parse(event.at) <= untilMs),
  ).length
  if (answer === 'events' && n === 0)
    throw new Refusal('conflict', 'No event is on record for that time: name at least one.')
  if (answer === 'none' && n > 0)
    throw new Refusal(
      'conflict',
      `${n === 1 ? '1 event is' : `${n} events are`} on record for that time: answer events, or withdraw what did not happen.`,
    )
}
