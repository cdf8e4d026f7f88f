import type { Criterion, Evidence } from '../../domain/assessment.ts'
import type { ReadingValue, Stated } from '../series/prepare.ts'
import type { Stretch } from '../series/stretches.ts'
import type { Limits, ThresholdName } from '../thresholds.ts'
import { standardRuleSet } from '../thresholds.ts'

/* Numbers, times and evidence as findings print them. */

const instant = (ms: number) => new Date(ms).toISOString()

/** A volume without noise: whole mL from 10 on, a tenth below. */
export const mL = (value: number): string =>
  `${Math.abs(value) >= 10 ? Math.round(value) : Math.round(value * 10) / 10} mL`

export const percent = (share: number): string => `${Math.round(share * 100)}%`

export const hoursText = (hours: number): string => `${Math.round(hours * 10) / 10} h`

const clocks = new Map<string, Intl.DateTimeFormat>()

/** A time as the patient's clock shows it: `Tue 24 Nov, 06:50`. */
export function localTime(zone: string, ms: number): string {
  let clock = clocks.get(zone)
  if (!clock) {
    clock = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      weekday: 'short',
      day: 'numeric',
      month: 'short',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    })
    clocks.set(zone, clock)
  }
  return clock.format(ms)
}

/** Evidence from a statement in a report. */
export const stated = (
  s: Stated<unknown>,
  what: string,
  value: Evidence['value'],
  unit: string | null = null,
): Evidence => ({ report: s.report.id, at: instant(s.at), what, value, unit })

/** Evidence that is in no report: an order, a staff event, the lack of a report. */
export const noted = (
  at: number,
  what: string,
  value: Evidence['value'] = null,
  unit: string | null = null,
): Evidence => ({
  report: null,
  at: instant(at),
  what,
  value,
  unit,
})

export const reading = (r: Stated<ReadingValue>): Evidence => stated(r, 'reading', r.value.volumeMl, 'mL')

/** The readings that end the given stretches. */
export const readingsOf = (stretches: readonly Stretch[]): Evidence[] =>
  stretches.flatMap((stretch) => stretch.readings.map(reading))

/** A net output that was worked out, to a tenth of a mL, and the readings that it comes from. */
export const netOutput = (netMl: number, end: number, from: readonly Stretch[]): Evidence[] => [
  noted(end, 'net output', Math.round(netMl * 10) / 10, 'mL'),
  ...readingsOf(from),
]

/**
 * A threshold of the rule set, with the number in force. One that is not the shipped number is a local choice: the source
 * of the shipped one does not carry it.
 */
export function threshold<Name extends ThresholdName>(name: Name, limits: Pick<Limits, Name>): Criterion {
  const shipped = standardRuleSet.thresholds[name] as (typeof standardRuleSet.thresholds)[string]
  const { unit, source, confidence } = shipped
  const value = limits[name]
  if (value === shipped.value) return { name, value, unit, source, confidence }
  const was = `${shipped.value}${unit === '' ? '' : ` ${unit}`}`
  return {
    name,
    value,
    unit,
    source: `Set by the clinic, for all or for this drain. The shipped value is ${was}: ${source}`,
    confidence: 'local choice',
  }
}

/** A limit that is not a number: a word that was reported, an order that is in force. */
export const criterion = (
  name: string,
  value: Criterion['value'],
  source: string,
  confidence: Criterion['confidence'],
): Criterion => ({ name, value, unit: null, source, confidence })

export const teaching = 'Leaflets for patients with drains name it as a reason to call at once.'
