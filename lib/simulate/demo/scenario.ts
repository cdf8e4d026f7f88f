import type { ClinicHours, QuietHours } from '../../domain/clinic-hours.ts'
import type { NewDrain } from '../../domain/enrolment.ts'
import { instantOf, localDate } from '../../domain/local-time.ts'
import type { Drain, Report } from '../../domain/record.ts'
import { standardOrders } from '../../domain/standard-orders.ts'
import { type SimulatedPatient, simulatePatient } from '../patient.ts'
import { type Case, cases, type Saying } from './cases.ts'
import { type Person, person } from './people.ts'

export const DEMO_CLINIC = {
  name: 'Larkfield clinic (invented)',
  timeZone: 'America/Denver',
  phone: '+1 303 555 0190',
  afterHoursPhone: '+1 303 555 0191',
} as const

const workday = [{ from: '07:30', until: '17:00' }]
export const DEMO_HOURS: ClinicHours = {
  week: {
    mon: workday,
    tue: workday,
    wed: workday,
    thu: workday,
    fri: workday,
    sat: [{ from: '08:00', until: '12:00' }],
  },
  holidays: [],
}
export const DEMO_QUIET: QuietHours = { from: '21:00', until: '08:00' }

/** One patient of the demo scenario, with the truth that nobody at the clinic sees. */
export type DemoPatient = {
  readonly person: Person
  readonly drains: readonly NewDrain[]
  readonly simulated: SimulatedPatient
  /** From when on nobody has called about what happens now; null: nothing happens now. */
  readonly openFrom: string | null
  /** When the exchange was asked for that has no day yet; null: none was. */
  readonly exchangeAskedAt: string | null
  /** The reporter's own words beside the last report. */
  readonly lastNote: string | null
}

const HOUR_MS = 3_600_000
const FIRST_SEED = 4_100
const REPORTING = 0.95
/** For so long before the end nobody has called whoever is left for the reader. */
const OPEN_HOURS = 20
/** An exchange that has no day yet was asked for so long before the end; the finding of it is left for the reader. */
const ASKED_HOURS = 30

/** The whole scenario, ending at an instant: the same patients with the same courses, whatever the instant. */
export function demoScenario(endsAt: string): DemoPatient[] {
  return cases.map((one, index) => demoPatient(one, index, Date.parse(endsAt)))
}

function demoPatient(one: Case, index: number, endMs: number): DemoPatient {
  const hours = one.days * 24
  const asked = one.reportMinutesAgo ?? []
  const standing = (one.events ?? []).filter(
    ({ type, calledAfterHours }) => type === 'silence' || calledAfterHours === null,
  )
  const sudden = standing.filter(({ type }) => type !== 'gradual-obstruction' && type !== 'silence')
  // What has just happened is told by the scenario's own report: an earlier one would have been called about.
  const habitUntilHour =
    sudden.length > 0
      ? hours -
        Math.max(...sudden.map(({ hoursAgo }) => hoursAgo), ...asked.map((minutes) => minutes / 60)) -
        0.5
      : undefined
  const simulated = simulatePatient(one.seed ?? FIRST_SEED + index, {
    start: new Date(endMs - hours * HOUR_MS).toISOString(),
    days: one.days,
    timeZone: DEMO_CLINIC.timeZone,
    kind: one.kind,
    ageDays: one.ageDays,
    adherence: one.adherence ?? REPORTING,
    oneDrain: !one.twoDrains,
    ...(one.levelMlPerDay === undefined ? {} : { levelMlPerDay: one.levelMlPerDay }),
    ...(one.missed === undefined ? {} : { missed: one.missed }),
    ...(one.halfLifeDays === undefined ? {} : { halfLifeDays: one.halfLifeDays }),
    events: (one.events ?? []).map(({ hoursAgo, ...event }) => ({ ...event, onsetHour: hours - hoursAgo })),
    reportAtHours: asked.map((minutes) => hours - minutes / 60 - 0.25),
    ...(habitUntilHour === undefined ? {} : { habitUntilHour }),
  })
  const reports = one.says ? saying(simulated.reports, one.says) : simulated.reports
  const isOpen = asked.length > 0 || standing.length > 0 || one.exchangeAskedFor === true
  const openHours = Math.max(
    OPEN_HOURS,
    ...standing.flatMap(({ type, hoursAgo }) => (type === 'gradual-obstruction' ? [] : [hoursAgo + 1])),
  )
  return {
    person: person(index),
    drains: simulated.enrolment.drains.map((drain) =>
      newDrain({
        ...drain,
        onlyKidney: one.onlyKidney ?? false,
        exchangeBookedFor: one.exchangeAskedFor ? null : bookedFor(drain.exchangeBookedFor, endMs),
      }),
    ),
    simulated: { ...simulated, reports },
    openFrom: isOpen ? new Date(endMs - openHours * HOUR_MS).toISOString() : null,
    exchangeAskedAt: one.exchangeAskedFor ? new Date(endMs - ASKED_HOURS * HOUR_MS).toISOString() : null,
    lastNote: one.says?.note ?? null,
  }
}

/** A booking that is still ahead is for a time of day at which somebody is exchanged. */
function bookedFor(booked: string | null | undefined, endMs: number): string | null {
  if (!booked || Date.parse(booked) <= endMs) return booked ?? null
  return instantOf(`${localDate(booked, DEMO_CLINIC.timeZone)}T10:30`, DEMO_CLINIC.timeZone)
}

/** Adds to the last report what chance did not bring. */
function saying(reports: readonly Report[], says: Saying): Report[] {
  const last = reports.at(-1)
  if (!last) return []
  const { symptoms } = last
  const drain = last.readings?.[0]?.drain
  return [
    ...reports.slice(0, -1),
    {
      ...last,
      readings: last.readings?.map((reading) =>
        says.appearance ? { ...reading, appearance: says.appearance } : reading,
      ),
      symptoms: symptoms && {
        ...symptoms,
        ...(says.pain === undefined ? {} : { pain: says.pain }),
        ...(says.general ? { general: [...says.general] } : {}),
      },
      ...((says.dressing || says.skin) && drain && symptoms
        ? {
            dressings: [
              {
                drain,
                at: symptoms.at,
                found: says.dressing ?? 'clean',
                skin: says.skin ?? 'intact',
                changed: false,
              },
            ],
          }
        : {}),
    },
  ]
}

const PLACES: Readonly<Record<Drain['kind'], string>> = {
  nephrostomy: 'kidney',
  nephroureteral: 'kidney, to the bladder',
  biliary: 'bile duct',
  cholecystostomy: 'gallbladder',
  collection: 'abscess, lower belly',
  pleural: 'chest',
  bulb: 'bulb at the wound',
}
/** The length mark at the skin, in cm; a bulb's tube has none. */
const LENGTH_CM: Readonly<Record<Drain['kind'], number | null>> = {
  nephrostomy: 12,
  nephroureteral: 18,
  biliary: 15.5,
  cholecystostomy: 14,
  collection: 11,
  pleural: 20,
  bulb: null,
}
const FRENCH: Readonly<Record<Drain['kind'], number>> = {
  nephrostomy: 8,
  nephroureteral: 8.5,
  biliary: 10,
  cholecystostomy: 8,
  collection: 12,
  pleural: 15.5,
  bulb: 10,
}

function newDrain({ id: _, removedAt: __, ...drain }: Drain): NewDrain {
  const side = drain.side ? `${drain.side} ` : ''
  const place = PLACES[drain.kind]
  const label = `${side}${place}`
  const { vessel, dressingType, removalPlan } = standardOrders[drain.kind].orders
  // Vessels of a scenario carry marks fine enough for every threshold of their kind.
  return {
    ...drain,
    markMl: drain.kind === 'collection' || drain.kind === 'bulb' ? null : (drain.markMl ?? null),
    label,
    frenchSize: FRENCH[drain.kind],
    lengthMarkCm: LENGTH_CM[drain.kind],
    vessel,
    dressingType,
    removalPlan,
    flushAt: drain.plan.flush ? flushTimes(drain.plan.flush.everyHours) : null,
  }
}

/** Times of day for a flush every so many hours, from nine in the morning; every other day has one time as well. */
const flushTimes = (everyHours: number): string[] =>
  Array.from({ length: Math.max(1, Math.floor(24 / everyHours)) }, (_, i) => (9 + i * everyHours) % 24)
    .sort((a, b) => a - b)
    .map((hour) => `${String(hour).padStart(2, '0')}:00`)
