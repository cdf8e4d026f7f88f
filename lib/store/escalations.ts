import { z } from 'zod'
import { EscalationStep } from '../domain/escalation.ts'
import { Instant } from '../domain/instant.ts'
import { Urgency } from '../domain/words.ts'
import type { Tx } from './client.ts'
import { grouped, newId, type Rows, rowOf, rowsOf, sql, stored } from './rows.ts'

const KeptEscalation = z.object({
  id: z.string(),
  clinicId: z.string(),
  /** Null for a fault of the system itself. */
  patientId: z.string().nullable(),
  about: z.string(),
  urgency: Urgency.exclude(['none']),
  recordedAt: Instant,
  nextAt: Instant.nullable(),
  haveItAt: Instant.nullable(),
  haveItBy: z.string().nullable(),
  endedAt: Instant.nullable(),
})
export type KeptEscalation = z.infer<typeof KeptEscalation>

const KeptStep = EscalationStep.extend({ id: z.string(), escalationId: z.string() }).strip()
export type KeptStep = z.infer<typeof KeptStep>

const readOne = (tx: Tx, query: Parameters<typeof rowOf>[3]) => rowOf(tx, 'escalation', KeptEscalation, query)
const readAll = (tx: Tx, query: Parameters<typeof rowOf>[3]) =>
  rowsOf(tx, 'escalation', KeptEscalation, query)

export const escalationById = (tx: Tx, id: string): Promise<KeptEscalation | null> =>
  readOne(tx, sql`SELECT * FROM "Escalation" WHERE "id" = ${id}`)

/** The one that stands for a patient. */
export const standingEscalation = (tx: Tx, patientId: string): Promise<KeptEscalation | null> =>
  readOne(
    tx,
    sql`SELECT * FROM "Escalation" WHERE "patientId" = ${patientId} AND "endedAt" IS NULL ORDER BY "recordedAt" LIMIT 1`,
  )

/** All that stand in a clinic, those of the system among them. */
export const standingEscalations = (tx: Tx, clinicId: string): Promise<Rows<KeptEscalation>> =>
  readAll(
    tx,
    sql`SELECT * FROM "Escalation" WHERE "clinicId" = ${clinicId} AND "endedAt" IS NULL ORDER BY "recordedAt"`,
  )

/** Those whose next step has come, the longest waiting first. */
export const dueEscalations = (tx: Tx, now: Date, most: number): Promise<Rows<KeptEscalation>> =>
  readAll(
    tx,
    sql`SELECT * FROM "Escalation" WHERE "nextAt" <= ${stored(now)} ORDER BY "nextAt", "id" LIMIT ${most}`,
  )

/** A patient's, the latest first. */
export const escalationsOf = (tx: Tx, patientId: string, from: string): Promise<Rows<KeptEscalation>> =>
  readAll(
    tx,
    sql`SELECT * FROM "Escalation" WHERE "patientId" = ${patientId} AND "recordedAt" > ${from}
        ORDER BY "recordedAt" DESC, "id"`,
  )

/** The steps of one, the earliest first: their ids are counted up. */
export const stepsOf = (tx: Tx, escalationId: string): Promise<Rows<KeptStep>> =>
  rowsOf(
    tx,
    'escalation step',
    KeptStep,
    sql`SELECT * FROM "EscalationStep" WHERE "escalationId" = ${escalationId} ORDER BY "at", "id"`,
  )

/** The steps of a patient's escalations since an instant, by escalation, in one query. */
export async function stepsOfPatient(
  tx: Tx,
  patientId: string,
  from: string,
): Promise<Map<string, KeptStep[]>> {
  const { rows } = await rowsOf(
    tx,
    'escalation step',
    KeptStep,
    sql`SELECT s.* FROM "Escalation" e JOIN "EscalationStep" s ON s."escalationId" = e."id"
        WHERE e."patientId" = ${patientId} AND e."recordedAt" > ${from} ORDER BY s."at", s."id"`,
  )
  return grouped(rows, ({ escalationId }) => escalationId)
}

/** The steps of all that stand in a clinic, by escalation, in one query. */
export async function standingSteps(tx: Tx, clinicId: string): Promise<Map<string, KeptStep[]>> {
  const { rows } = await rowsOf(
    tx,
    'escalation step',
    KeptStep,
    sql`SELECT s.* FROM "Escalation" e JOIN "EscalationStep" s ON s."escalationId" = e."id"
        WHERE e."clinicId" = ${clinicId} AND e."endedAt" IS NULL ORDER BY s."at", s."id"`,
  )
  return grouped(rows, ({ escalationId }) => escalationId)
}

/** The step whose message carried a secret. */
export async function stepByToken(tx: Tx, tokenHash: string): Promise<KeptStep | null> {
  return rowOf(
    tx,
    'escalation step',
    KeptStep,
    sql`SELECT * FROM "EscalationStep" WHERE "tokenHash" = ${tokenHash}`,
  )
}

type NewEscalation = Pick<KeptEscalation, 'clinicId' | 'patientId' | 'about' | 'urgency'>

/** Adds one whose next step is due at once, and gives its id. */
export async function addEscalation(tx: Tx, escalation: NewEscalation, now: Date): Promise<string> {
  const id = newId()
  const at = stored(now)
  await tx.escalation.create({ data: { id, ...escalation, recordedAt: at, nextAt: at } })
  return id
}

type Moved = Partial<
  Pick<KeptEscalation, 'about' | 'urgency' | 'nextAt' | 'haveItAt' | 'haveItBy' | 'endedAt'>
>

export async function saveEscalation(tx: Tx, id: string, moved: Moved): Promise<void> {
  await tx.escalation.update({ where: { id }, data: moved })
}

type NewStep = Pick<KeptStep, 'kind'> &
  Partial<Pick<KeptStep, 'shiftId' | 'channel' | 'by' | 'why'>> & {
    id?: string
    letterId?: string
    tokenHash?: string
  }

/** The id of the next step of an escalation: counted up, so that the steps of one instant keep their order. */
export async function nextStepId(tx: Tx, escalationId: string): Promise<string> {
  const count = await tx.escalationStep.count({ where: { escalationId } })
  return `${escalationId}.${String(count + 1).padStart(6, '0')}`
}

export async function addEscalationStep(
  tx: Tx,
  { id: escalationId, clinicId }: Pick<KeptEscalation, 'id' | 'clinicId'>,
  step: NewStep,
  now: Date,
): Promise<void> {
  const id = step.id ?? (await nextStepId(tx, escalationId))
  await tx.escalationStep.create({ data: { ...step, id, clinicId, escalationId, at: stored(now) } })
}
