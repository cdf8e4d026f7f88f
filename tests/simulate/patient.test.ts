import { describe, expect, it } from 'vitest'
import { PatientRecord } from '../../lib/domain/record.ts'
import { DrainKind } from '../../lib/domain/words.ts'
import {
  recordAsOf,
  type SimulationOptions,
  simulatePatient,
  type TrueEventType,
} from '../../lib/simulate/index.ts'

const start = '2026-03-02T17:00:00Z'
const options: SimulationOptions = { start, days: 60, adherence: 0.56 }
const seeds = (n: number) => Array.from({ length: n }, (_, seed) => seed)
const hours = (from: string, to: string) => (Date.parse(to) - Date.parse(from)) / 3_600_000
const plain = (seed: number, more: Partial<SimulationOptions> = {}) =>
  JSON.parse(JSON.stringify(simulatePatient(seed, { ...options, ...more })))

describe('simulatePatient', () => {
  it('gives the same patient for the same seed, another for another', () => {
    expect(plain(4)).toEqual(plain(4))
    expect(plain(4)).not.toEqual(plain(5))
  })

  it('gives records that the domain takes, of every kind and zone', () => {
    for (const kind of DrainKind.options)
      for (const timeZone of ['America/Denver', 'Asia/Kolkata', 'Pacific/Auckland'])
        for (const seed of seeds(4)) {
          const patient = simulatePatient(seed, { ...options, kind, timeZone })
          const record = PatientRecord.safeParse(recordAsOf(patient, '2026-12-01T00:00:00Z'))
          expect(record.error?.issues ?? []).toEqual([])
        }
  })

  it('keeps reports in the order of receipt, within the simulated time, and shows only what was received', () => {
    for (const seed of seeds(50)) {
      const patient = simulatePatient(seed, options)
      const received = patient.reports.map((report) => Date.parse(report.receivedAt))
      expect(received).toEqual([...received].sort((a, b) => a - b))
      const middle = '2026-04-01T00:00:00Z'
      for (const report of recordAsOf(patient, middle).reports)
        expect(Date.parse(report.receivedAt)).toBeLessThanOrEqual(Date.parse(middle))
    }
  })

  it('conserves mass: an event-free drain that is read every day reports what came', () => {
    let reported = 0
    let came = 0
    for (const seed of seeds(60)) {
      const patient = simulatePatient(seed, { ...options, adherence: 1, kind: 'biliary', events: 'none' })
      const superseded = new Set(patient.reports.map((report) => report.supersedes))
      const last = new Map<string, string>()
      for (const report of patient.reports.filter((report) => !superseded.has(report.id))) {
        for (const reading of report.readings ?? []) {
          if (reading.volumeMl === null || Date.parse(reading.at) > Date.parse(report.receivedAt)) continue
          const from = last.get(reading.drain) ?? patient.enrolment.enrolledAt
          const truth = patient.truth.trueMl(reading.drain, from, reading.at)
          last.set(reading.drain, reading.at)
          if (Math.abs(reading.volumeMl - truth) > 0.6 * truth + 60) continue // mistyped, or after an exchange
          reported += reading.volumeMl
          came += truth
        }
      }
    }
    expect(reported / came).toBeGreaterThan(0.98)
    expect(reported / came).toBeLessThan(1.05) // flushes come back too
  })

  it('lets steady drains stay level and resolving ones dwindle', () => {
    const ratio = (kind: DrainKind) => {
      const ratios = seeds(80).map((seed) => {
        const { truth } = simulatePatient(seed, { ...options, kind, events: 'none' })
        return (
          truth.trueMl('d1', '2026-03-10T12:00:00Z', '2026-03-13T12:00:00Z') /
          truth.trueMl('d1', '2026-03-03T12:00:00Z', '2026-03-06T12:00:00Z')
        )
      })
      return ratios.sort((a, b) => a - b)[40] ?? Number.NaN
    }
    expect(ratio('nephrostomy')).toBeCloseTo(1, 1)
    expect(ratio('biliary')).toBeCloseTo(1, 1)
    expect(ratio('collection')).toBeLessThan(0.5)
    expect(ratio('bulb')).toBeLessThan(0.5)
  })

  it('has no event but recovery in an event-free panel', () => {
    for (const seed of seeds(100)) {
      const { truth } = simulatePatient(seed, { ...options, events: 'none' })
      expect(truth.events.filter((event) => event.type !== 'recovery')).toEqual([])
    }
  })

  it('has all kinds of events over many patients, at rates near those of its hazards', () => {
    const counts = new Map<TrueEventType, number>()
    let days = 0
    for (const seed of seeds(1500)) {
      const patient = simulatePatient(seed, { ...options, kind: 'nephrostomy', ageDays: 0.01 })
      days += 60 * patient.enrolment.drains.length
      for (const event of patient.truth.events)
        if (hours(start, event.onset) < 30 * 24) counts.set(event.type, (counts.get(event.type) ?? 0) + 1)
    }
    const tubes = days / 60
    const share = (...types: TrueEventType[]) =>
      types.reduce((sum, type) => sum + (counts.get(type) ?? 0), 0) / tubes
    // A tube has one event at a time, so each share stays a little under its own hazard.
    expect(share('drain-out', 'drain-moved')).toBeGreaterThan(0.07)
    expect(share('drain-out', 'drain-moved')).toBeLessThan(0.125)
    expect(share('sudden-obstruction', 'gradual-obstruction')).toBeGreaterThan(0.03)
    expect(share('sudden-obstruction', 'gradual-obstruction')).toBeLessThan(0.06)
    expect(share('infection')).toBeGreaterThan(0.06)
    expect(share('infection')).toBeLessThan(0.12)
    expect(share('bleeding')).toBeGreaterThan(0.01)
    expect(share('bleeding')).toBeLessThan(0.03)
  })

  it('lets the output fall from the onset of a sudden obstruction, and slowly in a gradual one', () => {
    const fall = (type: TrueEventType, afterHours: number) => {
      const onsetHour = 20 * 24
      const { truth } = simulatePatient(3, {
        ...options,
        kind: 'nephrostomy',
        events: [{ type, onsetHour, fallDays: 8, calledAfterHours: null }],
      })
      const at = (hour: number) => new Date(Date.parse(start) + hour * 3_600_000).toISOString()
      return (
        truth.trueMl('d1', at(onsetHour + afterHours), at(onsetHour + afterHours + 24)) /
        truth.trueMl('d1', at(onsetHour - 48), at(onsetHour - 24))
      )
    }
    expect(fall('sudden-obstruction', 0)).toBeLessThan(0.05)
    expect(fall('gradual-obstruction', 0)).toBeGreaterThan(0.6)
    expect(fall('gradual-obstruction', 9 * 24)).toBeLessThan(0.4)
    expect(fall('drain-out', 0)).toBe(0)
  })

  it('is the same up to a call of the clinic, whatever the call', () => {
    for (const seed of seeds(150)) {
      const before = simulatePatient(seed, options)
      const event = before.truth.events.find((event) => event.type !== 'recovery' && event.type !== 'silence')
      if (!event) continue
      const at = new Date(Date.parse(event.onset) + 12 * 3_600_000).toISOString()
      const after = simulatePatient(seed, {
        ...options,
        interventions: [{ at, drain: event.drain, type: event.type }],
      })
      expect(recordAsOf(after, at)).toEqual(recordAsOf(before, at))
    }
  })

  it('ends an event sooner when the clinic calls', () => {
    const events = [{ type: 'sudden-obstruction' as const, onsetHour: 480, calledAfterHours: 60 }]
    const alone = simulatePatient(9, { ...options, kind: 'nephrostomy', events })
    const at = '2026-03-23T17:00:00Z'
    const called = simulatePatient(9, {
      ...options,
      kind: 'nephrostomy',
      events,
      interventions: [{ at, drain: 'd1', type: 'sudden-obstruction' }],
    })
    expect(alone.truth.events[0]?.end?.by).toBe('own-call')
    expect(called.truth.events[0]?.end).toMatchObject({ by: 'clinic', calledAt: '2026-03-23T17:00:00.000Z' })
    expect(called.staffEvents[0]).toMatchObject({ type: 'exchanged', drain: 'd1' })
  })

  it('takes a resolved drain out, after which nothing is reported', () => {
    const patient = simulatePatient(2, { ...options, kind: 'bulb', events: 'none' })
    expect(patient.leftAt).not.toBeNull()
    expect(patient.staffEvents.at(-1)?.type).toBe('removed')
    for (const report of patient.reports)
      expect(hours(report.readings?.[0]?.at ?? start, patient.leftAt ?? '')).toBeGreaterThan(0)
  })

  it('is silent in a silence, and reports when a scenario says so', () => {
    const silent = simulatePatient(6, {
      ...options,
      adherence: 1,
      events: [{ type: 'silence', onsetHour: 240, days: 6 }],
    })
    const inside = silent.reports.filter(
      (report) => hours(start, report.receivedAt) > 250 && hours(start, report.receivedAt) < 240 + 6 * 24,
    )
    expect(inside).toEqual([])
    const asked = simulatePatient(6, {
      ...options,
      events: [{ type: 'silence', onsetHour: 240, days: 6 }],
      reportAtHours: [300],
    })
    expect(asked.reports.some((report) => Math.abs(hours(start, report.receivedAt) - 300) < 1)).toBe(true)
  })

  it('makes the mistakes that people make', () => {
    let corrections = 0
    let late = 0
    let future = 0
    for (const seed of seeds(300))
      for (const report of simulatePatient(seed, options).reports) {
        if (report.supersedes) corrections++
        for (const reading of report.readings ?? []) {
          if (hours(reading.at, report.receivedAt) > 2) late++
          if (hours(reading.at, report.receivedAt) < -1) future++
        }
      }
    expect(corrections).toBeGreaterThan(5)
    expect(late).toBeGreaterThan(100)
    expect(future).toBeGreaterThan(5)
  })
})
