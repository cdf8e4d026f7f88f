import { z } from 'zod'
import { TimeZone } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { Bit, type Rows, rowOf, rowsOf, sql, stored } from './rows.ts'

export const Clinic = z.object({
  id: z.string(),
  name: z.string(),
  timeZone: TimeZone,
  phone: z.string(),
  afterHoursPhone: z.string().nullable(),
  demo: Bit,
})
export type Clinic = z.infer<typeof Clinic>

export const clinicById = (tx: Tx, id: string): Promise<Clinic | null> =>
  rowOf(tx, 'clinic', Clinic, sql`SELECT * FROM "Clinic" WHERE "id" = ${id}`)

export async function addClinic(tx: Tx, clinic: Clinic, now: Date): Promise<void> {
  await tx.clinic.create({ data: { ...clinic, recordedAt: stored(now) } })
}

export const allClinics = (tx: Tx): Promise<Rows<Clinic>> =>
  rowsOf(tx, 'clinic', Clinic, sql`SELECT * FROM "Clinic" ORDER BY "name", "id"`)
