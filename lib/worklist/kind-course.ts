import { quantile } from 'simple-statistics'
import { ruleSetAt } from '../assessment/rule-set.ts'
import { now as clock } from '../clock.ts'
import { type KindCourse, LEAST_PATIENTS } from '../domain/kind-course.ts'
import { Refusal } from '../domain/problem.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import type { StaffMember } from '../domain/staff.ts'
import { DrainKind } from '../domain/words.ts'
import { type AgedDay, courseDays } from '../rules/derive/course-days.ts'
import { prepare } from '../rules/series/prepare.ts'
import { View } from '../rules/series/view.ts'
import { drainsOf } from '../store/drains.ts'
import { read, snapshot, type Tx, write } from '../store/index.ts'
import { kindCourseOf, patientIdsOf, saveKindCourse } from '../store/kind-courses.ts'
import { composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { isOfClinic } from './patient-of.ts'

/** The days by which one drain counts. */
export type CourseSample = { patientId: string; kind: DrainKind; days: readonly AgedDay[] }

/**
 * The usual course of a drain's kind in the clinic, as it was last worked out; null where too few patients count on any
 * day. Nothing of any patient is read for it but which kind the drain is.
 * @throws Refusal not-found
 */
export async function readKindCourse(
  staff: StaffMember,
  patientId: string,
  drainId: string,
  now: Date = clock(),
): Promise<KindCourse | null> {
  return read(async (tx) => {
    await isOfClinic(tx, staff.clinicId, patientId)
    const { rows } = await drainsOf(tx, patientId, stored(now))
    const drain = rows.find(({ id }) => id === drainId)
    if (!drain) throw new Refusal('not-found', 'This patient has no such drain.')
    const course = await kindCourseOf(tx, staff.clinicId, drain.kind)
    return course && course.days.length > 0 ? course : null
  })
}

/**
 * Works out the usual course of each kind from the histories of all the clinic's patients, one after the other, and
 * keeps it. A patient whose record cannot be read is left out, and told to `onError`.
 */
export async function computeKindCourses(
  clinicId: string,
  now: Date,
  onError: (error: unknown, patientId: string) => void = () => undefined,
): Promise<KindCourse[]> {
  const samples: CourseSample[] = []
  const rules = await read((tx) => ruleSetAt(tx, clinicId, now))
  for (const patientId of await read((tx) => patientIdsOf(tx, clinicId)))
    try {
      samples.push(...(await snapshot((tx) => samplesOf(tx, patientId, rules, now))))
      // Nobody waits for this; whoever asks for something meanwhile comes first.
      await new Promise((resolve) => setImmediate(resolve))
    } catch (error) {
      onError(error, patientId)
    }
  const courses = DrainKind.options.map((kind) => courseOf(kind, samples))
  await write(async (tx) => {
    for (const course of courses) await saveKindCourse(tx, clinicId, course, stored(now))
  })
  return courses
}

async function samplesOf(tx: Tx, patientId: string, rules: RuleSet, now: Date): Promise<CourseSample[]> {
  const composed = await composeRecord(tx, patientId, now)
  if (!composed) return []
  const at = now.getTime()
  return new View(prepare(composed.record, rules, at), at).drains.map((drain) => ({
    patientId,
    kind: drain.facts.kind,
    days: courseDays(drain),
  }))
}

/** Median and quartiles (linear between neighbours, R's type 7) of each day on which enough patients count. */
export function courseOf(kind: DrainKind, samples: readonly CourseSample[]): KindCourse {
  const byDay = new Map<number, { patients: Set<string>; netMl: number[]; drains: Set<CourseSample> }>()
  for (const sample of samples) {
    if (sample.kind !== kind) continue
    for (const { day, netMl } of sample.days) {
      const known = byDay.get(day) ?? { patients: new Set(), netMl: [], drains: new Set() }
      byDay.set(day, known)
      known.patients.add(sample.patientId)
      known.drains.add(sample)
      known.netMl.push(netMl)
    }
  }
  const enough = [...byDay]
    .filter(([, { patients }]) => patients.size >= LEAST_PATIENTS)
    .toSorted(([a], [b]) => a - b)
  return {
    kind,
    drains: new Set(enough.flatMap(([, { drains }]) => [...drains])).size,
    days: enough.map(([day, { netMl }]) => {
      const [q1 = 0, median = 0, q3 = 0] = quantile(netMl, [0.25, 0.5, 0.75]).map(tenth)
      return { day, n: netMl.length, median, q1, q3 }
    }),
  }
}

const tenth = (mL: number) => Math.round(mL * 10) / 10
