import type { Assessment } from '../domain/assessment.ts'
import type { FlagStep } from '../domain/flag.ts'
import { escalate } from '../notify/open-escalation.ts'
import { planReminder } from '../notify/reminders.ts'
import { settleEscalationOf } from '../notify/settle-escalation.ts'
import { assess } from '../rules/assess.ts'
import { isAdmitted } from '../store/admissions.ts'
import { addSteps, type KeptFlag, livingFlagsOf, saveFlags } from '../store/flags.ts'
import type { Tx } from '../store/index.ts'
import { addLetter } from '../store/outbox.ts'
import { callStateOf, saveState } from '../store/patient-states.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { newId, stored } from '../store/rows.ts'
import { nextRuleSetFrom } from '../store/rule-sets.ts'
import { isPressing, type Moves, moveFlags } from './flag-life.ts'
import { keptInHospital } from './in-hospital.ts'
import { rowDrains } from './row-drains.ts'
import { ruleSetAt } from './rule-set.ts'

/**
 * Assesses one patient as of now, within the caller's transaction: composes the record, runs the rule set in
 * force, moves the flags, and stores flags, steps, state and what is to be sent. What it costs depends on
 * that patient's record alone.
 * @param ready the record as of now, if the caller has just composed it
 */
export async function reassess(tx: Tx, patientId: string, now: Date, ready?: Composed): Promise<Assessment> {
  const at = stored(now)
  const composed = ready ?? (await composeRecord(tx, patientId, now))
  if (!composed) throw new Error(`assessment: there is no patient ${patientId}`)
  const { patient, record, drains, reports, unreadable } = composed
  const assessment = assess(record, await ruleSetAt(tx, patient.clinicId, now), at)

  const before = await livingFlagsOf(tx, patientId)
  const isInHospital = await isAdmitted(tx, patientId)
  const moves = openedUnder(
    assessment.ruleSet,
    before.rows,
    moveFlags(patientId, before.rows, assessment.findings, at, newId),
  )
  const { flags, steps } = isInHospital ? keptInHospital(before.rows, moves) : moves
  await saveFlags(tx, patient.clinicId, changed(before.rows, flags), at)
  await addSteps(tx, patient.clinicId, patientId, steps)
  // Whoever is in hospital is looked after there: nobody is called for them at night.
  if (!isInHospital) await tellOfPressing(tx, patient.clinicId, patientId, flags, steps, now)
  await settleEscalationOf(tx, patientId, now)

  const living = new Map([...before.rows, ...flags].map((flag) => [flag.id, flag]))
  const promised = (await callStateOf(tx, patientId))?.lookAgainAt ?? null
  const heard = reports.at(-1)
  await saveState(tx, patient.clinicId, patientId, {
    assessment,
    drains: rowDrains(record, assessment, drains),
    // Once follow-up has ended the sweep passes by: only a report brings such a patient back.
    nextCheckAt:
      patient.followUpEndedAt === null
        ? earliestAfter(at, [
            assessment.nextCheckAt,
            promised,
            await nextRuleSetFrom(tx, patient.clinicId, at),
            ...waits([...living.values()]),
          ])
        : null,
    lastHeardAt: heard?.receivedAt ?? null,
    lastHeardFrom: heard?.reporter ?? null,
    unreadable: [...unreadable, ...before.unreadable],
  })
  await planReminder(tx, composed, now)
  return assessment
}

/** Each flag that opens says under which rule set. */
function openedUnder(ruleSet: string, before: readonly KeptFlag[], { flags, steps }: Moves): Moves {
  const known = new Set(before.map(({ id }) => id))
  return { flags: flags.map((flag) => (known.has(flag.id) ? flag : { ...flag, ruleSet })), steps }
}

const changed = (before: readonly KeptFlag[], after: readonly KeptFlag[]): KeptFlag[] => {
  const known = new Map(before.map((flag) => [flag.id, JSON.stringify(flag)]))
  return after.filter((flag) => known.get(flag.id) !== JSON.stringify({ ...flag }))
}

/** When closed flags wait to be looked at again. */
const waits = (flags: readonly KeptFlag[]) =>
  flags.flatMap(({ state, lookAgainAt }) => (state === 'closed' && lookAgainAt !== null ? [lookAgainAt] : []))

function earliestAfter(now: string, instants: readonly (string | null)[]): string | null {
  const ahead = instants.flatMap((instant) =>
    instant !== null && stored(instant) > now ? [stored(instant)] : [],
  )
  return ahead.sort()[0] ?? null
}

const NEWS = new Set<FlagStep['kind']>(['opened', 'raised', 'returned', 'held-again'])

/** What cannot wait must reach a person: outside clinic hours whoever is on call, else one letter for all that has just become pressing. */
async function tellOfPressing(
  tx: Tx,
  clinicId: string,
  patientId: string,
  flags: readonly KeptFlag[],
  steps: readonly FlagStep[],
  now: Date,
): Promise<void> {
  const news = new Set(
    steps.filter(({ kind, urgency }) => NEWS.has(kind) && isPressing(urgency)).map((step) => step.flagId),
  )
  const pressing = flags.filter(({ id }) => news.has(id))
  if (pressing.length === 0) return
  if (await escalate(tx, { clinicId, patientId }, pressing, now)) return
  const body = pressing.map(({ id, code, drain, urgency, actBy }) => ({
    flag: id,
    code,
    drain,
    urgency,
    actBy,
  }))
  await addLetter(tx, { clinicId, patientId, kind: 'pressing-flags', body: { flags: body } }, now)
}
