import { isUrinary, usualCourse } from '../../domain/words.ts'
import type { SimulatedPatient, Truth } from '../../simulate/index.ts'
import { LOW_TYPES } from './matching.ts'

/** Ways in which a clinic would otherwise notice that a steady drain brings less. */
export type WayName = 'half-of-yesterday' | 'fixed-limit' | 'own-call'
export const ways: readonly WayName[] = ['half-of-yesterday', 'fixed-limit', 'own-call']
/** One number for a whole kind: what a leaflet could say. */
export const FIXED_LIMIT_ML = { urinary: 200, biliary: 100 } as const

export const waysInWords =
  `half-of-yesterday: a volume under half of the one before it; fixed-limit: a volume under ${FIXED_LIMIT_ML.urinary} mL (urinary) or ${FIXED_LIMIT_ML.biliary} mL (biliary); own-call: nobody looks, the patient calls. ` +
  'Compared on falls of steady drains (obstruction, dislodgement), on the same patients; each way but own-call counts only what it sees before the patient’s own call. rules-and-own-call: whichever comes first. by-chance: what it would have “seen” in the same days had nothing happened.'

export type WayTally = {
  readonly way: WayName
  falseAlerts: number
  /** Per event, hours from onset to the alert; null: not before the patient's own call or a visit. */
  readonly found: (number | null)[]
  /** Events in whose time the way would have alerted though nothing had happened. */
  readonly byChance: number
}

const HOUR_MS = 3_600_000

/**
 * Runs the simple ways over one patient whom nobody calls.
 * @param spared the same patient, to whom nothing happened
 */
export function simpleWays(patient: SimulatedPatient, spared: SimulatedPatient): WayTally[] {
  const lows = patient.truth.events.filter(
    (event) => LOW_TYPES.includes(event.type) && isSteady(patient, event.drain),
  )
  return ways.map((way) => {
    if (way === 'own-call')
      return {
        way,
        falseAlerts: 0,
        byChance: 0,
        found: lows.map((event) =>
          event.end?.by === 'own-call' ? hoursTo(event, Date.parse(event.end.calledAt)) : null,
        ),
      }
    const alerts = alertsOf(patient, way)
    const without = alertsOf(spared, way)
    const firstIn = (list: readonly Alert[], event: Truth) => {
      const until = event.end ? Date.parse(event.end.calledAt) : Number.POSITIVE_INFINITY
      return list.find(
        ({ drain, at }) => drain === event.drain && at >= Date.parse(event.onset) && at < until,
      )
    }
    const found = lows.map((event) => {
      const first = firstIn(alerts, event)
      return first ? hoursTo(event, first.at) : null
    })
    const byChance = lows.filter((event) => firstIn(without, event)).length
    const falseAlerts = alerts.filter(
      ({ drain, at }) => !lows.some((event) => event.drain === drain && covers(event, at)),
    ).length
    return { way, falseAlerts, found, byChance }
  })
}

export const hoursTo = (event: Truth, at: number) => (at - Date.parse(event.onset)) / HOUR_MS
const covers = (event: Truth, at: number) =>
  at >= Date.parse(event.onset) && (event.end === null || at <= Date.parse(event.end.at) + 24 * HOUR_MS)

export const isSteady = (patient: SimulatedPatient, id: string | null) => {
  const drain = patient.enrolment.drains.find((drain) => drain.id === id)
  return drain !== undefined && usualCourse[drain.kind] === 'steady'
}

type Alert = { readonly drain: string; readonly at: number }

function alertsOf(patient: SimulatedPatient, way: Exclude<WayName, 'own-call'>): Alert[] {
  const alerts: Alert[] = []
  const last = new Map<string, number>()
  const kindOf = new Map(patient.enrolment.drains.map((drain) => [drain.id, drain.kind]))
  for (const report of patient.reports) {
    if (report.supersedes) continue
    for (const { drain, volumeMl } of report.readings ?? []) {
      if (volumeMl === null || !isSteady(patient, drain)) continue
      const before = last.get(drain)
      last.set(drain, volumeMl)
      const limit = isUrinary(kindOf.get(drain) ?? 'biliary')
        ? FIXED_LIMIT_ML.urinary
        : FIXED_LIMIT_ML.biliary
      const low = way === 'fixed-limit' ? volumeMl < limit : before !== undefined && volumeMl < before / 2
      if (low) alerts.push({ drain, at: Date.parse(report.receivedAt) })
    }
  }
  return alerts
}
