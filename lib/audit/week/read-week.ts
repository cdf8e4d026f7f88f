import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import type { LocalDate } from '../../domain/instant.ts'
import { addDays, localDate } from '../../domain/local-time.ts'
import { Refusal } from '../../domain/problem.ts'
import { type Review, Stratum } from '../../domain/review.ts'
import { standingOf } from '../../domain/review-page.ts'
import type { StaffMember } from '../../domain/staff.ts'
import {
  lastEndedWeek,
  mondayOf,
  READING_SECONDS,
  type WeekItem,
  type WeekLine,
  type WeekPage,
  type Weeks,
} from '../../domain/week-page.ts'
import { type Clinic, clinicById } from '../../store/clinics.ts'
import { snapshot, type Tx, write } from '../../store/index.ts'
import { firstEnrolmentOf, itemsFrom, itemsOfWeek, type KeptItem } from '../../store/review-items.ts'
import { personsOf, readersOf, reviewsFrom, reviewsOf } from '../../store/reviews.ts'
import { grouped, stored } from '../../store/rows.ts'
import { staffNamesOf } from '../../store/staff-names.ts'
import { agreementOf } from './agree.ts'
import { drawWeekWithin } from './draw-week.ts'
import { weekOf } from './parse.ts'
import { turnOf } from './task.ts'

/** So many weeks are listed. */
const MOST = 53

/** The weeks of the clinic that are over, the latest first, and how far two readings agree. Draws nothing. */
export function readWeeks(staff: StaffMember, now: Date = clock()): Promise<Weeks> {
  const { clinicId } = staff
  return snapshot(async (tx): Promise<Weeks> => {
    const clinic = await ownClinic(tx, clinicId)
    const last = lastEndedWeek(now.getTime(), clinic.timeZone)
    const began = await firstEnrolmentOf(tx, clinicId)
    const weeks = began === null ? [] : weeksFrom(mondayOf(localDate(began, clinic.timeZone)), last)
    const from = weeks.at(-1) ?? last
    const items = grouped((await itemsFrom(tx, clinicId, from)).rows, ({ week }) => week)
    const reviews = grouped((await reviewsFrom(tx, clinicId, from)).rows, ({ itemId }) => itemId)
    const readers = await readersOf(tx, clinicId)
    const read = [...items.values()]
      .flat()
      .map(({ id, patientId }) => ({ patientId, reviews: reviews.get(id) ?? [] }))
    return {
      asOf: stored(now),
      clinic: shownClinic(clinic),
      weeks: weeks.map((week) =>
        lineOf(week, items.get(week) ?? [], reviews, { self: staff.id, readers, now }),
      ),
      agreement: agreementOf(read),
      readers: readers.length,
    }
  })
}

/**
 * The items of a week as whoever asks may see them: not what any was drawn from. Draws it if nobody has.
 * @throws Refusal invalid-input, conflict (the week is not over)
 */
export async function readWeek(staff: StaffMember, given: unknown, now: Date = clock()): Promise<WeekPage> {
  const { clinicId } = staff
  const week = weekOf(given)
  const isDrawn = await snapshot(async (tx) => (await itemsOfWeek(tx, clinicId, week)).rows.length > 0)
  if (!isDrawn) await write((tx) => drawWeekWithin(tx, staff, week, now))
  const page = await snapshot((tx) => compose(tx, staff, week, now))
  await write((tx) =>
    recordAccess(tx, {
      clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action: 'audit',
      patientId: null,
      what: `opened the week of ${week}: ${[...new Set(page.items.map(({ patientId }) => patientId))].join(' ')}`,
    }),
  )
  return page
}

async function compose(tx: Tx, { clinicId, id }: StaffMember, week: LocalDate, now: Date): Promise<WeekPage> {
  const clinic = await ownClinic(tx, clinicId)
  const { rows: items } = await itemsOfWeek(tx, clinicId, week)
  const reviews = grouped(
    (
      await reviewsOf(
        tx,
        items.map((item) => item.id),
      )
    ).rows,
    ({ itemId }) => itemId,
  )
  const persons = await personsOf(
    tx,
    clinicId,
    items.map(({ patientId }) => patientId),
  )
  const readers = await readersOf(tx, clinicId)
  const [first] = items
  const names = first ? await staffNamesOf(tx, clinicId) : null
  return {
    asOf: stored(now),
    clinic: shownClinic(clinic),
    week,
    drawnAt: first?.recordedAt ?? null,
    drawnBy: first ? (names?.get(first.recordedBy) ?? first.recordedBy) : null,
    minutes: Math.ceil((items.length * READING_SECONDS) / 60),
    shares: sharesOf(items),
    items: items.map((item): WeekItem => {
      const given = reviews.get(item.id) ?? []
      const { task, notBefore } = turnOf(item.twice, given, id, readers, now)
      const person = persons.get(item.patientId)
      const isBlind = task === 'read' || task === 'read-again' || notBefore !== null
      return {
        id: item.id,
        n: item.ordinal,
        patientId: item.patientId,
        name: person?.name ?? '',
        birthDate: person?.birthDate ?? '1900-01-01',
        recordNumber: person?.recordNumber ?? '',
        date: localDate(item.at, clinic.timeZone),
        task,
        notBefore,
        own: task === 'read-again' ? null : (given.findLast(({ byId }) => byId === id)?.verdict ?? null),
        counts: isBlind ? null : (standingOf(item.twice, given).counts?.verdict ?? null),
      }
    }),
    readers: readers.length,
  }
}

/** Of each stratum how many were drawn of how many: each item stands for one over its chance. */
const sharesOf = (items: readonly KeptItem[]) =>
  Stratum.options.flatMap((stratum) => {
    const own = items.filter((item) => item.stratum === stratum)
    const of = Math.round(own.reduce((sum, { probability }) => sum + 1 / probability, 0))
    return own.length > 0 ? [{ stratum, drawn: own.length, of }] : []
  })

type Asking = { self: string; readers: readonly string[]; now: Date }

function lineOf(
  week: LocalDate,
  items: readonly KeptItem[],
  reviews: ReadonlyMap<string, readonly Review[]>,
  { self, readers, now }: Asking,
): WeekLine {
  const standing = items.map(({ id, twice }) => standingOf(twice, reviews.get(id) ?? []).state)
  const count = (isOne: (state: (typeof standing)[number]) => boolean) => standing.filter(isOne).length
  return {
    week,
    isDrawn: items.length > 0,
    items: items.length,
    read: count((state) => state !== 'unread'),
    twice: items.filter(({ twice }) => twice).length,
    readTwice: count((state) => state === 'agreed' || state === 'disagreed' || state === 'settled'),
    disagreed: count((state) => state === 'disagreed'),
    mine: items.filter(
      ({ id, twice }) => turnOf(twice, reviews.get(id) ?? [], self, readers, now).task !== 'none',
    ).length,
  }
}

/** The Mondays from one to another, the latest first, at most as many as are listed. */
function weeksFrom(first: LocalDate, last: LocalDate): LocalDate[] {
  const weeks: LocalDate[] = []
  for (let week = last; week >= first && weeks.length < MOST; week = addDays(week, -7)) weeks.push(week)
  return weeks
}

async function ownClinic(tx: Tx, clinicId: string): Promise<Clinic> {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  return clinic
}

const shownClinic = ({ id, name, timeZone, demo }: Clinic) => ({ id, name, timeZone, demo })
