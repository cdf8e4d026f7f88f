import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { NoAnswer, type NoAnswerPage, standardNoAnswer, urgenciesOfRule } from '../domain/no-answer.ts'
import { faultsOf, Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { tell } from '../notify/bus.ts'
import { lastAccessOf } from '../store/access-records.ts'
import { answerOnce } from '../store/answered.ts'
import { read, type Tx, write } from '../store/index.ts'
import { type NoAnswerClinic, noAnswerClinic, saveNoAnswer } from '../store/no-answer.ts'
import { stored } from '../store/rows.ts'

const ACTION = 'edit-no-answer'

/** The clinic's rules for attempts without an answer, and who changed them last. */
export const readNoAnswer = ({ clinicId }: StaffMember): Promise<NoAnswerPage> =>
  read((tx) => pageWithin(tx, clinicId))

async function pageWithin(tx: Tx, clinicId: string): Promise<NoAnswerPage> {
  const { rules, isStandard } = await ownClinic(tx, clinicId)
  const last = await lastAccessOf(tx, clinicId, ACTION)
  return { rules, isStandard, changedAt: last?.at ?? null, changedBy: last?.actor ?? null }
}

/**
 * Changes the rules. The access record says who, when, from what and to what.
 * @throws Refusal invalid-input, key-reused
 */
export async function saveNoAnswerRules(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<NoAnswerPage> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { noAnswer: body } }
  const page = await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const rules = NoAnswer.safeParse(body)
      if (!rules.success)
        throw new Refusal(
          'invalid-input',
          'The rules are not as they are accepted.',
          faultsOf(rules.error, body),
        )
      const before = await ownClinic(tx, clinicId)
      const isStandard = JSON.stringify(rules.data) === JSON.stringify(standardNoAnswer)
      await saveNoAnswer(tx, clinicId, isStandard ? null : rules.data)
      await recordAccess(tx, {
        clinicId,
        at: stored(now),
        staffId: staff.id,
        actor: staff.name,
        role: staff.role,
        action: ACTION,
        patientId: null,
        what: `changed the no-answer rules: ${changesOf(before.rules, rules.data) || 'nothing'}`,
      })
      return pageWithin(tx, clinicId)
    }),
  )
  tell(clinicId, { patientId: '', kind: 'callback' })
  return page
}

async function ownClinic(tx: Tx, clinicId: string): Promise<NoAnswerClinic> {
  const clinic = await noAnswerClinic(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  return clinic
}

/** What is other than before, each with both values. */
const changesOf = (before: NoAnswer, after: NoAnswer): string =>
  urgenciesOfRule
    .filter((urgency) => JSON.stringify(before[urgency]) !== JSON.stringify(after[urgency]))
    .map(
      (urgency) => `${urgency} from ${JSON.stringify(before[urgency])} to ${JSON.stringify(after[urgency])}`,
    )
    .join('; ')
