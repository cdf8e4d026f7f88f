import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { dayAndTime } from '../../domain/local-time.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import {
  type KeptMinutes,
  type MinutesContent,
  NewMinutes,
  needsReason,
  openText,
  type SignedMinutes,
} from '../../domain/week-minutes.ts'
import { answerOnce } from '../../store/answered.ts'
import { hashOfBody } from '../../store/hashes.ts'
import { snapshot, write } from '../../store/index.ts'
import { newId, stored } from '../../store/rows.ts'
import { addMinutes } from '../../store/week-minutes.ts'
import { parse, weekOf } from '../week/parse.ts'
import { composeMinutes } from './content.ts'
import { keptMinutes } from './read-minutes.ts'

/** So long after its cut-off a page can still be signed as it was read. */
const FRESH_HOURS = 12
const HOUR_MS = 3_600_000

/**
 * Signs a week's minutes as they were read, or amends them. What is signed is what stood on the page: where anything of it
 * has changed since, it must be read again.
 * @throws Refusal invalid-input, conflict (the week is not over; signed already; not the newest; changed since), key-reused
 */
export async function signMinutes(
  staff: StaffMember,
  given: unknown,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ minutes: string; hash: string }> {
  const { clinicId } = staff
  const week = weekOf(given)
  const wanted = parse('minutes', NewMinutes, body)
  const cutOff = new Date(wanted.cutOff)
  // Outside the write: the figures of a large clinic take their time, and a report must not wait for them.
  const content = await snapshot((tx) => composeMinutes(tx, clinicId, week, cutOff))
  const request = { clinicId, source: staff.id, key, body: { minutes: body, week } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      refuseCutOff(cutOff, wanted.cutOff, now)
      refuseUnripe(content, wanted, now)
      refuseTwice(await keptMinutes(tx, clinicId, week), wanted)
      const { amends = null, why = null, decisions } = wanted
      const minutes: SignedMinutes = {
        content,
        decisions,
        unreadWhy: needsReason(content.verdicts) ? (wanted.unreadWhy ?? null) : null,
        amends,
        why: amends === null ? null : why,
        signedBy: { id: staff.id, name: staff.name },
        signedAt: stored(now),
      }
      const [id, hash] = [newId(), hashOfBody(minutes)]
      await addMinutes(tx, {
        ...{ id, clinicId, week, hash, amends, why: minutes.why },
        body: JSON.stringify(minutes),
        recordedAt: stored(now),
        recordedBy: staff.id,
      })
      await recordAccess(tx, {
        clinicId,
        at: stored(now),
        staffId: staff.id,
        actor: staff.name,
        role: staff.role,
        action: amends === null ? 'sign-minutes' : 'amend-minutes',
        patientId: null,
        what: `${amends === null ? 'signed' : 'amended'} the minutes of the week of ${week} (${id}), hash ${hash}`,
      })
      return { minutes: id, hash }
    }),
  )
}

function refuseCutOff(cutOff: Date, given: string, now: Date): void {
  const age = now.getTime() - cutOff.getTime()
  if (age >= 0 && age <= FRESH_HOURS * HOUR_MS) return
  throw new Refusal('invalid-input', 'The minutes are not as they are accepted.', [
    {
      field: 'cutOff',
      value: given,
      message: `accepted: when the page was read, not ahead and at most ${FRESH_HOURS} h ago`,
    },
  ])
}

function refuseUnripe(content: MinutesContent, { seen, unreadWhy }: NewMinutes, now: Date): void {
  const { until, verdicts, clinic } = content
  if (until > stored(now))
    throw new Refusal('conflict', `This week is not over before ${dayAndTime(until, clinic.timeZone)}.`)
  if (hashOfBody(content) !== seen)
    throw new Refusal('conflict', 'The minutes have changed since you read them: read them again first.')
  if (needsReason(verdicts) && !unreadWhy)
    throw new Refusal('invalid-input', `${openText(verdicts)[0] ?? ''} Say why it is signed all the same.`, [
      { field: 'unreadWhy', message: 'is missing; accepted: why it is signed before all was read' },
    ])
}

/** One signature a week; whatever comes later amends the newest. */
function refuseTwice([newest]: readonly KeptMinutes[], { amends, why }: NewMinutes): void {
  if (!amends) {
    if (!newest) return
    throw new Refusal(
      'conflict',
      `${newest.minutes?.signedBy.name ?? 'Somebody'} has signed this week already: amend it, and say why.`,
    )
  }
  if (newest?.id !== amends)
    throw new Refusal('conflict', 'An amendment names the newest minutes of the week: read them again first.')
  if (!why)
    throw new Refusal('invalid-input', 'The amendment is not as it is accepted.', [
      { field: 'why', message: 'is missing; accepted: why they are amended' },
    ])
}
