import { z } from 'zod'
import { DrainKind } from './words.ts'

/** A figure of fewer patients is not shown: it would say more of single people than of a kind of drain. */
export const LEAST_PATIENTS = 10

/** One day since placement: how many drains have a complete day there, and the quartiles of their net output in mL. */
export const CourseDay = z.strictObject({
  /** 0 is the local day of placement. */
  day: z.number().int().min(0),
  n: z.number().int(),
  median: z.number(),
  q1: z.number(),
  q3: z.number(),
})
export type CourseDay = z.infer<typeof CourseDay>

/** The usual course of a kind of drain in one clinic. Days on which fewer than `LEAST_PATIENTS` patients count are left out. */
export const KindCourse = z.strictObject({
  kind: DrainKind,
  /** Drains that count on at least one day. */
  drains: z.number().int(),
  days: z.array(CourseDay),
})
export type KindCourse = z.infer<typeof KindCourse>
