import { answerInquiryWithin } from '../../audit/outcomes/answer-inquiry.ts'
import { recordOutsideEventWithin } from '../../audit/outcomes/record-event.ts'
import { drawWeekWithin } from '../../audit/week/draw-week.ts'
import { saveReviewWithin } from '../../audit/week/save-review.ts'
import { addDays, instantOf, localDate } from '../../domain/local-time.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { DEMO_CLINIC, type DemoPatient } from '../../simulate/demo/scenario.ts'
import { randomFor } from '../../simulate/random.ts'
import { flagsByIds } from '../../store/flags.ts'
import type { Tx } from '../../store/index.ts'
import { itemsOfWeek, type KeptItem } from '../../store/review-items.ts'
import { stored } from '../../store/rows.ts'
import type { Agenda } from './agenda.ts'
import { type Opinion, ofAnother, ofDay, ofFlag, outsideKind } from './verdicts.ts'

const DAY_MS = 86_400_000
const HOUR_MS = 3_600_000
/** So many weeks are over and read; the newest of those that are over is left for the reader. */
const WEEKS = 8

/** Those who are in the audit of the scenario, and how a patient of the store is found among the simulated. */
export type Audited = {
  physician: StaffMember
  secondPhysician: StaffMember
  coordinator: StaffMember
  patients: readonly Lived[]
}
export type Lived = {
  readonly demo: DemoPatient
  readonly index: number
  readonly patientId: string
  /** Ids of the simulator to ids of the store. */
  readonly drains: ReadonlyMap<string, string>
  readonly reports: ReadonlyMap<string, string>
}

/** Puts eight weeks of reviews, and what became of the patients outside, among what happens in the scenario. */
export function planAudit(agenda: Agenda, who: Audited, endsAt: Date): void {
  const zone = DEMO_CLINIC.timeZone
  const monday = mondayOf(localDate(endsAt.getTime(), zone))
  for (let back = 2; back <= WEEKS + 1; back++) {
    const week = addDays(monday, -7 * back)
    const at = (days: number, time: string) =>
      Date.parse(instantOf(`${addDays(week, days)}T${time}`, zone) ?? '')
    agenda.add(at(8, '12:10'), (tx, now) => readWeek(tx, who, week, back, now))
    agenda.add(at(10, '12:40'), (tx, now) => readAgain(tx, who, week, back, now))
  }
  for (const patient of who.patients) planOutcomes(agenda, who, patient)
}

/** The Monday of the week of a day. */
const mondayOf = (day: string) => addDays(day, -((new Date(`${day}T00:00:00Z`).getUTCDay() + 6) % 7))

async function readWeek(tx: Tx, who: Audited, week: string, back: number, now: Date): Promise<void> {
  const chance = randomFor(back, 'demo-sample')
  await drawWeekWithin(tx, who.physician, week, now, () => chance.uniform())
  for (const item of (await itemsOfWeek(tx, who.physician.clinicId, week)).rows)
    await give(tx, who.physician, item, 1, await opinionOn(tx, who, item), now)
}

/** The second readings, blind, and what settles those that differ. */
async function readAgain(tx: Tx, who: Audited, week: string, back: number, now: Date): Promise<void> {
  for (const item of (await itemsOfWeek(tx, who.physician.clinicId, week)).rows) {
    if (!item.twice) continue
    const first = await opinionOn(tx, who, item)
    const second = ofAnother(first, randomFor(back, 'demo-second', item.ordinal))
    await give(tx, who.secondPhysician, item, 2, second, now)
    if (second.verdict !== first.verdict) await give(tx, who.physician, item, 3, first, now)
  }
}

async function opinionOn(tx: Tx, { patients }: Audited, item: KeptItem): Promise<Opinion> {
  const lived = patients.find(({ patientId }) => patientId === item.patientId)
  if (!lived) throw new Error(`demo: an item of nobody: ${item.patientId}`)
  const { simulated } = lived.demo
  const random = randomFor(lived.index, 'demo-verdict', item.ordinal)
  const at = Date.parse(item.at)
  const flag = item.flagId ? (await flagsByIds(tx, item.patientId, [item.flagId])).rows[0] : undefined
  return flag ? ofFlag(asSimulated(flag.finding, lived), simulated, at, random) : ofDay(simulated, at, random)
}

/** A finding in the ids of the simulator, which alone knows the truth. */
function asSimulated<F extends { drain: string | null; evidence: { report: string | null }[] }>(
  finding: F,
  { drains, reports }: Lived,
): F {
  const back = (ids: ReadonlyMap<string, string>, id: string | null) =>
    [...ids].find(([, kept]) => kept === id)?.[0] ?? null
  return {
    ...finding,
    drain: finding.drain === null ? null : back(drains, finding.drain),
    evidence: finding.evidence.map((one) => ({ ...one, report: back(reports, one.report) })),
  }
}

const give = (tx: Tx, staff: StaffMember, item: KeptItem, reading: 1 | 2 | 3, opinion: Opinion, now: Date) =>
  saveReviewWithin(tx, staff, { item: item.id, reading, ...opinion }, `demo-${item.id}-${reading}`, now)

/** What was found outside, told some hours later; and the question after 30 days, answered for most. */
function planOutcomes(agenda: Agenda, { coordinator }: Audited, lived: Lived): void {
  const { index, demo } = lived
  const { simulated } = demo
  const told = simulated.truth.events.flatMap((event) => {
    const kind = outsideKind[event.type]
    return kind && event.end ? [{ kind, at: Date.parse(event.end.at), drain: event.drain }] : []
  })
  const enrolledMs = Date.parse(simulated.enrolment.enrolledAt)
  // Now and then somebody goes to an emergency department of whom the clinic had heard nothing.
  if (index % 11 === 6)
    told.push({
      kind: 'emergency-visit',
      at: enrolledMs + 11 * DAY_MS + 3 * HOUR_MS,
      drain: null,
    })
  for (const { kind, at, drain } of told)
    agenda.add(at + 20 * HOUR_MS, async (tx, now) => {
      const id = drain === null ? undefined : lived.drains.get(drain)
      const body = { kind, at: stored(new Date(at)), ...(id ? { drain: id } : {}) }
      await recordOutsideEventWithin(
        tx,
        coordinator,
        lived.patientId,
        body,
        `demo-${lived.patientId}-${at}`,
        now,
      )
    })
  const asked = enrolledMs + 31 * DAY_MS
  if (index % 7 === 6) return
  agenda.add(asked, async (tx, now) => {
    const known = told.some(({ at }) => at <= enrolledMs + 30 * DAY_MS && at + 20 * HOUR_MS < now.getTime())
    const answer = known ? 'events' : index % 9 === 4 ? 'unknown' : 'none'
    const body = { about: '30-days', answer }
    await answerInquiryWithin(tx, coordinator, lived.patientId, body, `demo-asked-${lived.patientId}`, now)
  })
}
