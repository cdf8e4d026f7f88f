import type { Finding } from '../domain/assessment.ts'
import { type FindingCode, urgencyRank } from '../domain/words.ts'

type Measure = { what: string; unit: string; worse: 'lower' | 'higher' }

/** By which number a finding can get worse at the same urgency. */
const measures: Partial<Record<FindingCode, Measure>> = {
  'output-stopped': { what: 'output', unit: 'mL', worse: 'lower' },
  'output-decline': { what: 'output', unit: 'mL', worse: 'lower' },
  'output-surge': { what: 'output', unit: 'mL', worse: 'higher' },
  'infection-signs': { what: 'temperature', unit: '°C', worse: 'higher' },
  'blocked-and-infected': { what: 'temperature', unit: '°C', worse: 'higher' },
  'severe-pain': { what: 'pain', unit: 'of 10', worse: 'higher' },
}

/**
 * Has a finding got worse than it stood at an earlier time? Says in which way, or null.
 * A higher urgency is worse; at the same urgency a worse number is, if it comes with newer evidence:
 * a lower output, a higher temperature, more pain.
 */
export function worseThan(now: Finding, before: Finding): string | null {
  if (urgencyRank[now.urgency] > urgencyRank[before.urgency])
    return `More urgent than when it was closed: ${now.urgency}, then ${before.urgency}.`
  if (urgencyRank[now.urgency] < urgencyRank[before.urgency]) return null
  const measure = measures[now.code]
  if (!measure || latest(now) <= latest(before)) return null
  const value = numberOf(now, measure.what)
  const earlier = numberOf(before, measure.what)
  if (value === null || earlier === null) return null
  const isWorse = measure.worse === 'lower' ? value < earlier : value > earlier
  return isWorse
    ? `Worse than when it was closed: ${measure.what} ${value} ${measure.unit}, then ${earlier}.`
    : null
}

const latest = ({ evidence }: Finding) =>
  Math.max(...evidence.map(({ at }) => Date.parse(at)), Number.NEGATIVE_INFINITY)

/**
 * The number by which a finding is compared: the latest of that name. For output the net output that the rule
 * names, else the mean of its readings, since two findings may rest on different numbers of readings.
 */
function numberOf({ evidence }: Finding, what: string): number | null {
  const valuesOf = (name: string) =>
    evidence.flatMap((item) => (item.what === name && typeof item.value === 'number' ? [item.value] : []))
  if (what !== 'output') return valuesOf(what).at(-1) ?? null
  const net = valuesOf('net output').at(-1)
  if (net !== undefined) return net
  const readings = valuesOf('reading')
  if (readings.length === 0) return null
  return Math.round((10 * readings.reduce((sum, value) => sum + value, 0)) / readings.length) / 10
}
