import { recordAccess } from '../../access/record.ts'
import { ruleSetAt } from '../../assessment/rule-set.ts'
import { isCapped, isRemoved } from '../../assessment/tube.ts'
import { now as clock } from '../../clock.ts'
import type { PatientRecord } from '../../domain/record.ts'
import type { Review } from '../../domain/review.ts'
import { newestOf, trulyFor } from '../../domain/review-page.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { DAYS_AFTER, type ItemPage } from '../../domain/week-page.ts'
import { limitsOf } from '../../rules/thresholds.ts'
import { clinicById } from '../../store/clinics.ts'
import { snapshot, type Tx, write } from '../../store/index.ts'
import { outsideEventsOf } from '../../store/outside-events.ts'
import { type Composed, composeRecord } from '../../store/record.ts'
import { itemById } from '../../store/review-items.ts'
import { readersOf, reviewsOf } from '../../store/reviews.ts'
import { stored } from '../../store/rows.ts'
import { noItem } from './save-review.ts'
import { turnOf } from './task.ts'
import { toldAfter, toldBefore, usualOf } from './told.ts'

/**
 * An item as it is read first: the record as it was known at its instant, and what became known in the days after.
 * Nothing in it says whether a flag stood, or what the item was drawn from; nor do calls, which only flags bring.
 * The view stands in the access record.
 * @throws Refusal not-found
 */
export async function readItem(staff: StaffMember, itemId: string, now: Date = clock()): Promise<ItemPage> {
  const page = await snapshot((tx) => compose(tx, staff, itemId, now))
  await write((tx) =>
    recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: 'audit',
      patientId: page.patient.id,
      what: `read item ${itemId} of the week of ${page.week}`,
    }),
  )
  return page
}

async function compose(tx: Tx, staff: StaffMember, itemId: string, now: Date): Promise<ItemPage> {
  const { clinicId } = staff
  const item = await itemById(tx, clinicId, itemId)
  const clinic = await clinicById(tx, clinicId)
  if (!item || !clinic) throw noItem()
  const endMs = Date.parse(item.at) + DAYS_AFTER * 86_400_000
  const end = new Date(Math.min(endMs, now.getTime()))
  const before = await composeRecord(tx, item.patientId, new Date(item.at))
  const later = await composeRecord(tx, item.patientId, end)
  if (!before || !later) throw noItem()
  const { rows: outside } = await outsideEventsOf(tx, item.patientId)
  const { rows: reviews } = await reviewsOf(tx, [itemId])
  const { task, reading, notBefore } = turnOf(
    item.twice,
    reviews,
    staff.id,
    await readersOf(tx, clinicId),
    now,
  )
  const rules = await ruleSetAt(tx, clinicId, new Date(item.at))
  const told = { before, later, outside, rules, at: item.at, end: stored(end), nowMs: now.getTime() }
  const { id, name, birthDate, recordNumber, timeZone } = later.patient
  return {
    item: item.id,
    week: item.week,
    patient: { id, name, birthDate, recordNumber, timeZone },
    clinicZone: clinic.timeZone,
    at: item.at,
    drains: drainsOf(before, rules, item.at),
    known: toldBefore(told),
    after: toldAfter(told),
    completeFrom: limitsOf(rules).completeCoverage,
    afterIsWhole: endMs <= now.getTime(),
    choices: trulyFor(later.drains.map(({ kind }) => kind)),
    task,
    reading,
    notBefore,
    own: reading === null ? [] : ownOf(reviews, staff.id, reading),
    toSettle: reading === 3 ? toSettle(reviews) : [],
    settlesOwn: reading === 3 && reviews.some(({ byId, reading: one }) => byId === staff.id && one !== 3),
  }
}

const ownOf = (reviews: readonly Review[], self: string, reading: number) =>
  reviews.filter((review) => review.byId === self && review.reading === reading)

const toSettle = (reviews: readonly Review[]) =>
  ([1, 2] as const).flatMap((reading) => {
    const given = newestOf(reviews, reading)
    if (!given) return []
    const { verdict, truly, harm, note } = given
    return [{ reading, verdict, truly, harm, note }]
  })

/** The drains with their orders, as they were known then. */
function drainsOf({ record, drains }: Composed, rules: RuleSet, at: string): ItemPage['drains'] {
  const usual = usualOf(record, rules, at)
  return drains.map(({ id, label, kind, placedAt, cappedAt }) => {
    const events = record.staffEvents.filter(({ drain }) => drain === id)
    return {
      id,
      label,
      kind,
      placedAt,
      isRemoved: isRemoved(events),
      isCapped: isCapped(events, cappedAt, Date.parse(at)),
      usualMlPerDay: usual.get(id) ?? null,
      orders: ordersText(record, id),
    }
  })
}

function ordersText({ drains }: PatientRecord, id: string): string {
  const plan = drains.find((drain) => drain.id === id)?.plan
  if (!plan) return ''
  const { logEveryHours, dressingEveryHours, flush } = plan
  return [
    `log every ${logEveryHours} h`,
    `dressing every ${dressingEveryHours} h`,
    flush ? `flush ${flush.volumeMl} mL every ${flush.everyHours} h` : 'no flush',
  ].join(', ')
}
