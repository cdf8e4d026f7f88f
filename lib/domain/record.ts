import { z } from 'zod'
import { Instant, TimeZone } from './instant.ts'
import {
  Appearance,
  Course,
  Drainage,
  DrainKind,
  DressingFound,
  Ease,
  FindingCode,
  General,
  Position,
  Side,
  Skin,
  StaffEventType,
} from './words.ts'

/**
 * One patient's record, composed for an instant: what the rules read and what `npm run assess` takes.
 * Volumes in mL, temperatures in °C, pain 0 to 10, intervals in real hours. Unknown is null, never zero.
 */
const id = z
  .string()
  .min(1, 'accepted: a text of 1 to 100 characters')
  .max(100, 'accepted: a text of 1 to 100 characters')
const between = (low: number, high: number, unit: string) =>
  z
    .number({ error: `accepted: a number from ${low} to ${high} ${unit}` })
    .min(low, `accepted: a number from ${low} to ${high} ${unit}`)
    .max(high, `accepted: a number from ${low} to ${high} ${unit}`)
const yesNo = z.boolean({ error: 'accepted: true or false' })

export const VolumeMl = between(0, 100_000, 'mL')
export const TemperatureC = between(30, 45, '°C')
export const Pain = between(0, 10, '(pain, 0 none, 10 worst)')
const capacityMl = between(1, 100_000, 'mL')
const hours = between(1, 8784, 'hours')

export const Overrides = z.strictObject({
  declineRatio: z.number().optional(),
  stoppedHours: z.number().optional(),
  feverC: z.number().optional(),
  severePain: z.number().optional(),
})
export type Overrides = z.infer<typeof Overrides>

export const Plan = z.strictObject({
  logEveryHours: hours,
  dressingEveryHours: hours,
  flush: z.strictObject({ volumeMl: VolumeMl, everyHours: hours }).nullish(),
  exchangeEveryDays: between(1, 3660, 'days').nullish(),
  overrides: Overrides.optional(),
})
export type Plan = z.infer<typeof Plan>

export const Drain = z.strictObject({
  id,
  kind: DrainKind,
  side: Side.nullish(),
  course: Course.optional(),
  drainage: Drainage.optional(),
  placedAt: Instant,
  removedAt: Instant.nullish(),
  cappedAt: Instant.nullish(),
  exchangeBookedFor: Instant.nullish(),
  removalBookedFor: Instant.nullish(),
  bagCapacityMl: capacityMl.nullish(),
  markMl: capacityMl.nullish(),
  onlyKidney: yesNo.optional(),
  usualMlPerDay: VolumeMl.nullish(),
  usualAppearance: Appearance.nullish(),
  plan: Plan,
})
export type Drain = z.infer<typeof Drain>

export const Reading = z.strictObject({
  drain: id,
  at: Instant,
  volumeMl: VolumeMl.nullable(),
  appearance: Appearance.nullish(),
  total: yesNo.optional(),
})
export type Reading = z.infer<typeof Reading>

export const Flush = z.strictObject({
  drain: id,
  at: Instant,
  volumeMl: VolumeMl.nullish(),
  ease: Ease.nullish(),
})
export type Flush = z.infer<typeof Flush>

export const Dressing = z.strictObject({
  drain: id,
  at: Instant,
  found: DressingFound.nullish(),
  skin: Skin.nullish(),
  changed: yesNo.optional(),
})
export type Dressing = z.infer<typeof Dressing>

export const DrainSymptoms = z.strictObject({
  drain: id,
  position: Position.nullish(),
  leak: yesNo.nullish(),
  draining: yesNo.nullish(),
})
export type DrainSymptoms = z.infer<typeof DrainSymptoms>

export const Symptoms = z.strictObject({
  at: Instant,
  temperatureC: TemperatureC.nullish(),
  chills: yesNo.nullish(),
  pain: Pain.nullish(),
  drains: z.array(DrainSymptoms).optional(),
  general: z.array(General).optional(),
})
export type Symptoms = z.infer<typeof Symptoms>

/** What one submission says; the same in a record, at the JSON door and on the check-in page. */
export const reportParts = {
  readings: z.array(Reading).optional(),
  flushes: z.array(Flush).optional(),
  dressings: z.array(Dressing).optional(),
  symptoms: Symptoms.nullish(),
}

export const Report = z.strictObject({
  id,
  receivedAt: Instant,
  ...reportParts,
  supersedes: id.nullish(),
})
export type Report = z.infer<typeof Report>

export const StaffEvent = z
  .strictObject({
    at: Instant,
    drain: id.nullish(),
    type: StaffEventType,
    code: FindingCode.nullish(),
  })
  .superRefine((event, context) => {
    if (event.type === 'flag-closed' && !event.code)
      context.addIssue({
        code: 'custom',
        path: ['code'],
        message: `missing beside flag-closed; ${acceptedCodes}`,
      })
    if (event.type !== 'flag-closed' && event.code)
      context.addIssue({
        code: 'custom',
        path: ['code'],
        message: 'accepted only beside the type flag-closed',
      })
    if (event.type !== 'flag-closed' && !event.drain)
      context.addIssue({
        code: 'custom',
        path: ['drain'],
        message: 'missing; accepted: the id of a drain of this record',
      })
  })
export type StaffEvent = z.infer<typeof StaffEvent>
const acceptedCodes = `accepted: ${FindingCode.options.join(', ')}`

export const Usual = z.strictObject({
  pain: Pain.nullish(),
  general: z.array(General).optional(),
})
export type Usual = z.infer<typeof Usual>

const shape = z.strictObject({
  timeZone: TimeZone,
  enrolledAt: Instant,
  usual: Usual.nullish(),
  drains: z.array(Drain),
  reports: z.array(Report).default([]),
  staffEvents: z.array(StaffEvent).default([]),
})

type Issue = { path: (string | number)[]; message: string }

/** What no single field can tell: ids that repeat, drains and reports that are not there, corrections in a circle. */
function crossFaults(record: z.infer<typeof shape>): Issue[] {
  const faults: Issue[] = []
  const drains = new Set<string>()
  record.drains.forEach((drain, i) => {
    if (drains.has(drain.id))
      faults.push({
        path: ['drains', i, 'id'],
        message: 'stands twice; accepted: an id of its own per drain',
      })
    drains.add(drain.id)
  })
  const known = [...drains].join(', ') || 'none, the record has no drain'
  const expectDrain = (name: string | null | undefined, path: (string | number)[]) => {
    if (name != null && !drains.has(name))
      faults.push({ path, message: `names no drain of this record; accepted: ${known}` })
  }
  const replaces = new Map<string, string | null>()
  record.reports.forEach((report, i) => {
    if (replaces.has(report.id))
      faults.push({
        path: ['reports', i, 'id'],
        message: 'stands twice; accepted: an id of its own per report',
      })
    replaces.set(report.id, report.supersedes ?? null)
    for (const part of ['readings', 'flushes', 'dressings'] as const)
      report[part]?.forEach((item, k) => {
        expectDrain(item.drain, ['reports', i, part, k, 'drain'])
      })
    report.symptoms?.drains?.forEach((item, k) => {
      expectDrain(item.drain, ['reports', i, 'symptoms', 'drains', k, 'drain'])
    })
  })
  record.reports.forEach((report, i) => {
    if (report.supersedes == null) return
    const path = ['reports', i, 'supersedes']
    if (!replaces.has(report.supersedes)) {
      faults.push({
        path,
        message: 'names no report of this record; accepted: the id of the report that it replaces',
      })
      return
    }
    const seen = new Set([report.id])
    for (let next: string | null | undefined = report.supersedes; next != null; next = replaces.get(next)) {
      if (seen.has(next)) {
        faults.push({ path, message: 'makes a circle; accepted: the id of an earlier report' })
        return
      }
      seen.add(next)
    }
  })
  record.staffEvents.forEach((event, i) => {
    expectDrain(event.drain, ['staffEvents', i, 'drain'])
  })
  return faults
}

export const PatientRecord = shape.superRefine((record, context) => {
  for (const fault of crossFaults(record)) context.addIssue({ code: 'custom', ...fault })
})
export type PatientRecord = z.infer<typeof PatientRecord>
