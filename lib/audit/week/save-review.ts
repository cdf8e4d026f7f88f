import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { dayAndTime } from '../../domain/local-time.ts'
import { Refusal } from '../../domain/problem.ts'
import type { ReadingNo, Review } from '../../domain/review.ts'
import { NewReview, newestOf, type ReviewSaved, standingOf, trulyFor } from '../../domain/review-page.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { answerOnce } from '../../store/answered.ts'
import { clinicById } from '../../store/clinics.ts'
import { drainsOf } from '../../store/drains.ts'
import { type Tx, write } from '../../store/index.ts'
import { itemById, type KeptItem } from '../../store/review-items.ts'
import { addReview, hasOpened, readersOf, reviewsOf } from '../../store/reviews.ts'
import { newId, stored } from '../../store/rows.ts'
import { refuseUnended } from './draw-week.ts'
import { parse } from './parse.ts'
import { secondFrom, settlers } from './task.ts'

export const noItem = () => new Refusal('not-found', 'There is no such item of this clinic.')

/**
 * Stores a verdict on an item. The same reading again by the same person is a change of it: both are kept, each with
 * whether calls and outcomes had been opened before. A verdict on a flag that has ended counts as any other.
 * @throws Refusal not-found, invalid-input, conflict (not this person's turn, or not yet), key-reused
 */
export const saveReview = (
  staff: StaffMember,
  body: unknown,
  key: string = newId(),
  now: Date = clock(),
): Promise<ReviewSaved> => write((tx) => saveReviewWithin(tx, staff, body, key, now))

/** The same within the caller's transaction. */
export function saveReviewWithin(
  tx: Tx,
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date,
): Promise<ReviewSaved> {
  const request = { clinicId: staff.clinicId, source: staff.id, key, body: { review: body } }
  return answerOnce(tx, request, stored(now), () => save(tx, staff, body, now))
}

async function save(tx: Tx, staff: StaffMember, body: unknown, now: Date): Promise<ReviewSaved> {
  const {
    item: itemId,
    reading,
    verdict,
    truly = null,
    harm,
    note = null,
  } = parse('verdict', NewReview, body)
  const { clinicId } = staff
  const item = await itemById(tx, clinicId, itemId)
  const clinic = await clinicById(tx, clinicId)
  if (!item || !clinic) throw noItem()
  refuseUnended(item.week, clinic.timeZone, now)
  const { rows: reviews } = await reviewsOf(tx, [itemId])
  const readers = await readersOf(tx, clinicId)
  const why = whyNot(item, reviews, reading, { self: staff.id, readers, now, zone: clinic.timeZone })
  if (why !== null) throw new Refusal('conflict', why)
  if (truly !== null) await refuseMisfit(tx, item, truly, now)

  const at = stored(now)
  const by = { clinicId, staffId: staff.id, patientId: item.patientId }
  const review: Review = {
    id: newId(),
    itemId,
    reading,
    verdict,
    truly,
    harm,
    note: note || null,
    isOpened: await hasOpened(tx, by, itemId),
    at,
    byId: staff.id,
  }
  await addReview(tx, clinicId, review)
  await recordAccess(tx, {
    ...by,
    at,
    actor: staff.name,
    action: 'audit',
    what: `gave a verdict on item ${itemId}, reading ${reading}: ${verdict}`,
  })
  return { review: review.id, reading, isOpened: review.isOpened }
}

type Asking = { self: string; readers: readonly string[]; now: Date; zone: string }

/** Why a reading is not this person's to give now; null where it is. */
function whyNot(
  item: KeptItem,
  reviews: readonly Review[],
  reading: ReadingNo,
  { self, readers, now, zone }: Asking,
): string | null {
  const given = newestOf(reviews, reading)
  if (given) return given.byId === self ? null : 'Somebody else has given this reading already.'
  if (reading === 1) return null
  const [first, second] = [newestOf(reviews, 1), newestOf(reviews, 2)]
  if (!item.twice) return 'This item is read once.'
  if (!first) return 'The first reading comes first.'
  if (reading === 2) {
    if (first.byId !== self) return null
    if (readers.some((id) => id !== self))
      return 'You gave the first reading: another person gives the second.'
    const from = secondFrom(first)
    return Date.parse(from) > now.getTime()
      ? `You gave the first reading: you can give the second from ${dayAndTime(from, zone)} on.`
      : null
  }
  if (!second) return 'The second reading comes first.'
  if (standingOf(true, reviews).state === 'agreed')
    return 'The two readings agree: there is nothing to settle.'
  return settlers(readers, first, second).includes(self)
    ? null
    : 'You gave one of the two readings: somebody else settles them.'
}

/** What was the matter must be something that can be the matter with a drain that the patient has. */
async function refuseMisfit(
  tx: Tx,
  { patientId }: KeptItem,
  truly: NonNullable<NewReview['truly']>,
  now: Date,
): Promise<void> {
  const { rows } = await drainsOf(tx, patientId, stored(now))
  const fits = trulyFor(rows.map(({ kind }) => kind))
  if (fits.includes(truly)) return
  throw new Refusal('invalid-input', 'The verdict is not as it is accepted.', [
    { field: 'truly', value: truly, message: `accepted with these drains: ${fits.join(', ')}` },
  ])
}
