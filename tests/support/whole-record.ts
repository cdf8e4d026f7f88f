import { expect } from 'vitest'
import { readRecord } from '../../lib/rules/read-record.ts'
import { closed, drain, dressing, event, flush, frozen, reading, record, symptoms } from './build.ts'

export type Json = Record<string, unknown>
/** A record with something in every list, as JSON brings it. */
export const whole = (): Json =>
  JSON.parse(
    JSON.stringify(
      record(
        [
          drain({
            side: 'left',
            usualAppearance: 'clear',
            plan: { flush: { volumeMl: 10, everyHours: 24 }, overrides: {} },
          }),
        ],
        [
          reading(8, 100, { id: 'r1', appearance: 'clear', total: false }),
          flush(9, 10, { id: 'r2', ease: 'easy' }),
          dressing(10, { found: 'clean', skin: 'intact', changed: true }, { id: 'r3' }),
          symptoms(
            11,
            {
              temperatureC: 37,
              chills: false,
              pain: 2,
              general: ['dizzy'],
              drains: [{ drain: 'd1', position: 'in-place', leak: false, draining: true }],
            },
            { id: 'r4' },
          ),
          reading(8, 110, { id: 'r5', supersedes: 'r1', received: 12 }),
        ],
        [event(20, 'exchanged'), closed(21, 'leak')],
        { usual: { pain: 1, general: [] } },
      ),
    ),
  )

/** The record with one value put at a path such as `drains.0.kind`; undefined takes it away. */
export function having(path: string, value: unknown): Json {
  const input = whole()
  const steps = path.split('.')
  const last = steps.pop() as string
  let part = input
  for (const step of steps) part = part[step] as Json
  if (value === undefined) delete part[last]
  else part[last] = value
  return frozen(input)
}

export const faults = (input: unknown) => readRecord(input).faults

export const accepts = (path: string, value: unknown) =>
  expect(faults(having(path, value)), `${path} = ${JSON.stringify(value)}`).toEqual([])

/** Refuses the record, with a fault that names the field and says what is accepted. */
export function refuses(path: string, value: unknown, field = path.replace(/\.(\d+)/g, '[$1]')) {
  const { record: read, faults: found } = readRecord(having(path, value))
  expect(read, `${path} = ${JSON.stringify(value)}`).toBeNull()
  expect(found.map((fault) => fault.field)).toContain(field)
  for (const fault of found) expect(fault.message.length).toBeGreaterThan(10)
}

/** The path of a part of the n-th report. */
export const report = (n: number, part: string) => `reports.${n}.${part}`
