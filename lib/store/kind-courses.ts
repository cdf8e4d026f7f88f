import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { KindCourse } from '../domain/kind-course.ts'
import type { DrainKind } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { json, rowOf, sql } from './rows.ts'

const Kept = z.object({ body: json(KindCourse) })

/** The usual course of a kind of drain in a clinic, as it was last worked out; null where it never was. */
export async function kindCourseOf(tx: Tx, clinicId: string, kind: DrainKind): Promise<KindCourse | null> {
  const row = await rowOf(
    tx,
    'usual course',
    Kept,
    sql`SELECT "body" FROM "KindCourse" WHERE "clinicId" = ${clinicId} AND "kind" = ${kind}`,
  )
  return row?.body ?? null
}

const Last = z.object({ at: Instant.nullable() })

/** When a clinic's courses were last worked out, all of them; null where they never were. */
export async function courseComputedAt(tx: Tx, clinicId: string): Promise<string | null> {
  const row = await rowOf(
    tx,
    'usual course',
    Last,
    sql`SELECT MIN("recordedAt") AS "at" FROM "KindCourse" WHERE "clinicId" = ${clinicId}`,
  )
  return row?.at ?? null
}

export async function saveKindCourse(
  tx: Tx,
  clinicId: string,
  course: KindCourse,
  recordedAt: string,
): Promise<void> {
  const { kind } = course
  const kept = { body: JSON.stringify(course), recordedAt }
  await tx.kindCourse.upsert({
    where: { clinicId_kind: { clinicId, kind } },
    create: { clinicId, kind, ...kept },
    update: kept,
  })
}

/** Every patient that a clinic ever had, by id. */
export async function patientIdsOf(tx: Tx, clinicId: string): Promise<string[]> {
  const rows = await tx.patient.findMany({
    where: { clinicId },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  return rows.map(({ id }) => id)
}
