import type { Callback } from '../domain/callback.ts'
import { failedSince, nextTry } from '../domain/next-try.ts'
import type { NextTry } from '../domain/next-try-said.ts'
import type { Profile } from '../domain/profile.ts'
import type { WorklistRow } from '../domain/worklist.ts'
import { callbacksOf, failedCallsSince } from '../store/callbacks.ts'
import { type KeptFlag, livingFlagsOf } from '../store/flags.ts'
import type { Tx } from '../store/index.ts'
import { type NoAnswerClinic, noAnswerClinic } from '../store/no-answer.ts'
import { patientById } from '../store/patients.ts'
import { grouped, stored } from '../store/rows.ts'

/** Tries that are older are no longer gone on from; more calls than these no rule counts. */
const BACK_MS = 14 * 86_400_000
const MOST_CALLS = 100

type Tried = Pick<WorklistRow, 'patientId' | 'flags' | 'attempts'>

/** What the clinic's rule says is to be tried next, by patient: of those rows of whom nobody was reached. */
export async function nextTriesOf(
  tx: Tx,
  clinicId: string,
  rows: readonly Tried[],
  now: Date,
): Promise<Map<string, NextTry>> {
  const tried = rows.filter(({ attempts }) => attempts > 0)
  const clinic = tried.length === 0 ? null : await noAnswerClinic(tx, clinicId)
  if (!clinic) return new Map()
  const { rows: calls } = await failedCallsSince(tx, clinicId, stored(new Date(now.getTime() - BACK_MS)))
  const callsOf = grouped(calls, ({ patientId }) => patientId)
  const tries = tried.flatMap(({ patientId, flags, attempts }) => {
    const failed = (callsOf.get(patientId) ?? [])
      .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at))
      .slice(-attempts)
    const contacts = failed[0]?.profile?.contacts ?? []
    const next = nextTry(
      { rules: clinic.rules, zone: clinic.timeZone, flags, failed, contacts },
      now.getTime(),
    )
    return next === null ? [] : [[patientId, next] as const]
  })
  return new Map(tries)
}

/** The same of one patient, as things stand within a transaction. */
export async function nextTryWith(
  tx: Tx,
  clinicId: string,
  patientId: string,
  now: Date,
): Promise<NextTry | null> {
  const clinic = await noAnswerClinic(tx, clinicId)
  const patient = await patientById(tx, patientId)
  if (!clinic || !patient) return null
  const { rows: flags } = await livingFlagsOf(tx, patientId)
  const { rows: calls } = await callbacksOf(tx, patientId, MOST_CALLS)
  return nextTryOf(clinic, patient.profile, flags, calls, now)
}

/** The same from what the caller has read. `calls`: the latest, the latest first. */
export function nextTryOf(
  { rules, timeZone: zone }: NoAnswerClinic,
  profile: Profile | null,
  flags: readonly KeptFlag[],
  calls: readonly Callback[],
  now: Date,
): NextTry | null {
  const contacts = profile?.contacts ?? []
  return nextTry({ rules, zone, flags, failed: failedSince(calls), contacts }, now.getTime())
}
