import { ruleSetAt } from '../assessment/rule-set.ts'
import {
  type HandoverComing,
  type HandoverEntry,
  type HandoverSheet,
  needsName,
  SHIFT_HOURS,
} from '../domain/handover.ts'
import { urgencyRank } from '../domain/words.ts'
import type { WorklistRow } from '../domain/worklist.ts'
import { type Ahead, aheadOf, callsOfStanding, type StandingCall } from '../store/handover-facts.ts'
import { type Acceptance, acceptancesOf, lastSignedOf, openHandoverOf } from '../store/handovers.ts'
import type { Tx } from '../store/index.ts'
import { grouped, stored } from '../store/rows.ts'
import { composeWorklist } from './read-worklist.ts'

const HOUR_MS = 3_600_000
/** A shift begins with the handover before it, where that is no older than this; else a shift's length ago. */
const LONGEST_SHIFT_HOURS = 24

/**
 * The page for the next shift as it stands now: every row of the worklist in its order, what was tried and agreed, and
 * what comes due. A constant number of queries, whatever the panel's size.
 */
export async function composeSheet(tx: Tx, clinicId: string, now: Date): Promise<HandoverSheet> {
  const at = stored(now)
  const list = await composeWorklist(tx, clinicId, now)
  const open = await openHandoverOf(tx, clinicId)
  const from = await shiftBegan(tx, clinicId, now)
  const until = stored(new Date(now.getTime() + SHIFT_HOURS * HOUR_MS))
  const calls = await callsOfStanding(tx, clinicId, from, at)
  const ahead = await aheadOf(tx, clinicId, at, until)
  const accepted = open ? await acceptancesOf(tx, open.handover.id) : { rows: [], unreadable: [] }

  const callsTo = grouped(calls.rows, ({ patientId }) => patientId)
  const aheadFor = grouped(ahead.rows, ({ patientId }) => patientId)
  const acceptedOf = new Map(accepted.rows.map((row) => [row.patientId, row]))
  const { name, timeZone, demo } = list.clinic
  const facts = { from, until, openedAt: open?.handover.openedAt ?? null }
  return {
    asOf: at,
    clinic: { name, timeZone, demo },
    ruleSet: (await ruleSetAt(tx, clinicId, now)).version,
    from,
    until,
    handover: open?.handover ?? null,
    entries: list.rows.map((row) =>
      entryOf(row, callsTo.get(row.patientId) ?? [], aheadFor.get(row.patientId) ?? [], {
        ...facts,
        accepted: acceptedOf.get(row.patientId) ?? null,
      }),
    ),
    coming: comingOf(aheadFor, new Set(list.rows.map(({ patientId }) => patientId))),
    unreadable: [...list.unreadable, ...calls.unreadable, ...ahead.unreadable, ...accepted.unreadable],
  }
}

async function shiftBegan(tx: Tx, clinicId: string, now: Date): Promise<string> {
  const last = await lastSignedOf(tx, clinicId)
  const signedAt = last?.body?.asOf ?? null
  const isOfToday = signedAt !== null && now.getTime() - Date.parse(signedAt) <= LONGEST_SHIFT_HOURS * HOUR_MS
  return isOfToday ? stored(signedAt) : stored(new Date(now.getTime() - SHIFT_HOURS * HOUR_MS))
}

type Facts = { from: string; until: string; openedAt: string | null; accepted: Acceptance | null }

function entryOf(
  row: WorklistRow,
  calls: readonly StandingCall[],
  ahead: readonly Ahead[],
  { from, until, openedAt, accepted }: Facts,
): HandoverEntry {
  const pressing = row.flags.filter(({ urgency }) => needsName(urgency)).map(({ since }) => Date.parse(since))
  const opened = Math.min(...row.flags.map((flag) => Date.parse(flag.openedAt)), Date.parse(from))
  const reached = calls.find(({ outcome }) => outcome === 'reached')
  const labelOf = (drain: string | null) => row.drains.find(({ id }) => id === drain)?.label ?? null
  const needs = needsName(row.urgency)
  return {
    patientId: row.patientId,
    name: row.name,
    birthDate: row.birthDate,
    recordNumber: row.recordNumber,
    phone: row.phone,
    timeZone: row.timeZone,
    urgency: row.urgency,
    actBy: row.actBy,
    overdue: row.overdue,
    part: row.part === 'upkeep' ? 'upkeep' : 'clinical',
    drains: row.drains.map(({ label }) => label),
    findings: row.flags
      .toSorted((a, b) => urgencyRank[b.urgency] - urgencyRank[a.urgency])
      .map(({ code, drain, finding, state }) => ({
        code,
        drain: row.drains.length > 1 ? labelOf(drain) : null,
        says: finding.says,
        owed: state === 'owed',
      })),
    lookAgainWhy: row.lookAgainWhy,
    tried: calls.filter(({ at }) => Date.parse(at) >= opened).map((call) => tryOf(call, call === reached)),
    agreed: reached ? agreedIn(reached) : null,
    due: [
      ...(row.actBy !== null && Date.parse(row.actBy) <= Date.parse(until)
        ? [{ at: row.actBy, what: 'act-by' as const }]
        : []),
      ...dueOf(ahead),
    ],
    holder: row.hold?.name ?? null,
    needs,
    isNew:
      needs &&
      openedAt !== null &&
      pressing.length > 0 &&
      pressing.every((since) => since > Date.parse(openedAt)),
    accepted: accepted ? { by: { id: accepted.by, name: accepted.name }, at: accepted.at } : null,
    newsSince: accepted !== null && pressing.some((since) => since > Date.parse(accepted.at)),
  }
}

/** The note of the call that is told as agreed stands there. */
const tryOf = ({ at, by, direction, outcome, spokenTo, note }: StandingCall, isAgreed: boolean) => ({
  at,
  by,
  direction,
  outcome,
  spokenTo,
  note: isAgreed ? '' : note,
})

const agreedIn = ({ at, by, agreed, lookAgainAt, note }: StandingCall) => ({
  at,
  by,
  agreed,
  lookAgainAt,
  note,
})

/** Each time once: several flags may be due for a look at the same moment. */
function dueOf(ahead: readonly Ahead[]) {
  const seen = new Map(ahead.map(({ at, what }) => [`${what} ${at}`, { at, what }]))
  return [...seen.values()]
}

function comingOf(aheadFor: Map<string, Ahead[]>, onList: ReadonlySet<string>): HandoverComing[] {
  return [...aheadFor.values()].flatMap((ahead) => {
    const [first] = ahead
    if (!first || onList.has(first.patientId)) return []
    const { patientId, name, birthDate, recordNumber, phone } = first
    return [{ patientId, name, birthDate, recordNumber, phone, due: dueOf(ahead) }]
  })
}
