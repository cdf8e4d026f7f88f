import { addDays, localDate } from '../../domain/local-time.ts'
import { FEW_PATIENTS } from '../../domain/registry.ts'
import { drainsInPlace, type Span } from '../../store/audit-facts.ts'
import { daysHeard } from '../../store/audit-heard.ts'
import { clinicById } from '../../store/clinics.ts'
import type { Tx } from '../../store/index.ts'
import type { RegistryDrain } from '../../store/registry-rows.ts'
import { grouped, stored } from '../../store/rows.ts'
import { type DrainAtRisk, patientDays } from '../figures/at-risk.ts'
import { readAtRisk } from '../figures/read-at-risk.ts'
import { daysByWeek, offsetsOf, type Week, weeksOf } from '../figures/weeks.ts'
import { endOf, tellingEnds } from './drain-end.ts'
import { nameable, tallyBy } from './mask.ts'
import { type Mask, WHOLE } from './naming.ts'

/** Days at risk at home, and how many of a patient’s days among them nothing was received; whole days. */
export type PersonTime = { days: number; silent: number }

const BEFORE_ALL = '1970-01-01T00:00:00.000Z'

/**
 * The time at risk of some patients until now, by kind of drain: catheter-days, as the figures count them. Of the whole patient, under
 * WHOLE, it is patient-days with any drain.
 */
export async function personTime(
  tx: Tx,
  clinicId: string,
  patients: ReadonlySet<string>,
  now: Date,
): Promise<Map<string, PersonTime>> {
  const clinic = await clinicById(tx, clinicId)
  const span: Span = { clinicId, from: BEFORE_ALL, until: stored(now), now: stored(now) }
  const places = (await drainsInPlace(tx, span)).rows.filter(({ patientId }) => patients.has(patientId))
  const [earliest] = places.map(({ enrolledAt }) => enrolledAt).sort()
  if (!clinic || earliest === undefined) return new Map()
  const zone = clinic.timeZone
  const period = { from: localDate(earliest, zone), until: addDays(localDate(now.getTime(), zone), 1) }
  const weeks = weeksOf(period, zone)
  const { drains } = await readAtRisk(tx, span, places, weeks, now)
  const heard = await heardBy(tx, span, weeks, zone)
  const whole = patientDays(drains, weeks)
  return new Map([
    [WHOLE, { days: sum([...whole.values()].flat()), silent: silentOf(whole, heard) }],
    ...[...grouped(drains, ({ kind }) => kind)].map(
      ([kind, own]) =>
        [kind, { days: catheterDays(own), silent: silentOf(patientDays(own, weeks), heard) }] as const,
    ),
  ])
}

async function heardBy(tx: Tx, span: Span, weeks: readonly Week[], zone: string) {
  const [first, last] = [weeks[0], weeks.at(-1)]
  if (!first || !last) return new Map<string, number[]>()
  const since = { ...span, from: stored(new Date(first.from)) }
  const { rows } = await daysHeard(tx, since, first.monday, offsetsOf(first.from, last.until, zone))
  return new Map(rows.map(({ patientId, days }) => [patientId, daysByWeek(days, weeks.length)]))
}

const sum = (all: readonly number[]) => all.reduce((total, one) => total + one, 0)
const catheterDays = (drains: readonly DrainAtRisk[]) => Math.round(sum(drains.flatMap(({ days }) => days)))

const silentOf = (atRisk: ReadonlyMap<string, number[]>, heard: ReadonlyMap<string, number[]>) =>
  sum(
    [...atRisk].flatMap(([patient, weeks]) =>
      weeks.map((days, week) => Math.max(0, days - (heard.get(patient)?.[week] ?? 0))),
    ),
  )

const isOfNone = (patients: number) => patients === 0 || patients >= FEW_PATIENTS

/**
 * Of which kinds, and whether of the whole, the time may be told. A sum less what is told of single drains is of those of whom nothing is
 * told: they must be enough, and so must those whose kinds are withheld.
 */
export function toldTime(drains: readonly RegistryDrain[], { kinds, at }: Mask): ReadonlySet<string> {
  const ends = drains.map((drain) => ({ ...drain, patient: drain.patientId, ...endOf(drain, at) }))
  const tell = tellingEnds(ends)
  const untold = ends.filter(({ ended }) => !tell(ended).isTold)
  const byKind = tallyBy(
    [...new Map(untold.map((one) => [`${one.patient} ${one.kind}`, one])).values()],
    ({ kind }) => kind,
  )
  const withheld = sum([...byKind].flatMap(([kind, patients]) => (kinds.has(kind) ? [] : [patients])))
  const names = nameable(new Map([...byKind].filter(([kind]) => kinds.has(kind))), withheld)
  const told = [...kinds].filter((kind) => names.has(kind) || !byKind.has(kind))
  const hidden = sum([...byKind].flatMap(([kind, patients]) => (told.includes(kind) ? [] : [patients])))
  const isWhole = isOfNone(hidden) && isOfNone(new Set(untold.map(({ patient }) => patient)).size)
  return new Set(isWhole ? [...told, WHOLE] : told.filter((kind) => kind !== WHOLE))
}
