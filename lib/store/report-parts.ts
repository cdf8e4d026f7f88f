import { z } from 'zod'
import { Instant } from '../domain/instant.ts'
import { Pain, TemperatureC, VolumeMl } from '../domain/record.ts'
import { Appearance, DressingFound, Ease, General, Position, Skin } from '../domain/words.ts'
import type { Tx } from './client.ts'
import type { Prisma } from './generated/client.ts'
import { Bit, json, type Rows, rowsOf, sql } from './rows.ts'

/*
 * What reports say, a table a kind: for one patient one indexed query each, never one per report.
 */
const part = { id: z.string(), reportId: z.string(), drain: z.string(), at: Instant }

export const StoredReading = z.object({
  ...part,
  volumeMl: VolumeMl.nullable(),
  appearance: Appearance.nullable(),
  total: Bit,
})
export const StoredFlush = z.object({ ...part, volumeMl: VolumeMl.nullable(), ease: Ease.nullable() })
export const StoredDressing = z.object({
  ...part,
  found: DressingFound.nullable(),
  skin: Skin.nullable(),
  changed: Bit.nullable(),
})
export const StoredSymptoms = z.object({
  id: z.string(),
  reportId: z.string(),
  at: Instant,
  temperatureC: TemperatureC.nullable(),
  chills: Bit.nullable(),
  pain: Pain.nullable(),
  general: json(z.array(General)).nullable(),
})
export const StoredDrainSymptoms = z.object({
  id: z.string(),
  symptomsId: z.string(),
  drain: z.string(),
  position: Position.nullable(),
  leak: Bit.nullable(),
  draining: Bit.nullable(),
})

/** Whose parts, recorded after `from` and not later than `until`. */
export type Span = { patientId: string; from: string; until: string }

const within = ({ patientId, from, until }: Span): Prisma.Sql =>
  sql`"patientId" = ${patientId} AND "recordedAt" > ${from} AND "recordedAt" <= ${until}`

export const readingsOf = (tx: Tx, span: Span): Promise<Rows<z.infer<typeof StoredReading>>> =>
  rowsOf(
    tx,
    'reading',
    StoredReading,
    sql`SELECT "id", "reportId", "drainId" AS "drain", "at", "volumeMl", "appearance", "total" FROM "Reading"
        WHERE ${within(span)} ORDER BY "recordedAt", "ordinal"`,
  )

export const flushesOf = (tx: Tx, span: Span): Promise<Rows<z.infer<typeof StoredFlush>>> =>
  rowsOf(
    tx,
    'flush',
    StoredFlush,
    sql`SELECT "id", "reportId", "drainId" AS "drain", "at", "volumeMl", "ease" FROM "Flush"
        WHERE ${within(span)} ORDER BY "recordedAt", "ordinal"`,
  )

export const dressingsOf = (tx: Tx, span: Span): Promise<Rows<z.infer<typeof StoredDressing>>> =>
  rowsOf(
    tx,
    'dressing change',
    StoredDressing,
    sql`SELECT "id", "reportId", "drainId" AS "drain", "at", "found", "skin", "changed" FROM "DressingChange"
        WHERE ${within(span)} ORDER BY "recordedAt", "ordinal"`,
  )

export const symptomsOf = (tx: Tx, span: Span): Promise<Rows<z.infer<typeof StoredSymptoms>>> =>
  rowsOf(
    tx,
    'symptoms',
    StoredSymptoms,
    sql`SELECT "id", "reportId", "at", "temperatureC", "chills", "pain", "general" FROM "Symptoms"
        WHERE ${within(span)} ORDER BY "recordedAt"`,
  )

export const drainSymptomsOf = (tx: Tx, span: Span): Promise<Rows<z.infer<typeof StoredDrainSymptoms>>> =>
  rowsOf(
    tx,
    'symptoms of a drain',
    StoredDrainSymptoms,
    sql`SELECT "id", "symptomsId", "drainId" AS "drain", "position", "leak", "draining" FROM "DrainSymptoms"
        WHERE ${within(span)} ORDER BY "recordedAt", "ordinal"`,
  )
