import { z } from 'zod'
import { AfterHours, standardAfterHours } from '../domain/after-hours.ts'
import { ClinicHours } from '../domain/clinic-hours.ts'
import { TimeZone } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { Bit, json, type Rows, rowOf, rowsOf, sql } from './rows.ts'

const columns = sql`"id", "name", "timeZone", "phone", "demo", "hours", "afterHours"`

const AfterHoursClinic = z
  .object({
    id: z.string(),
    name: z.string(),
    timeZone: TimeZone,
    phone: z.string(),
    demo: Bit,
    hours: json(ClinicHours).nullable(),
    afterHours: json(AfterHours).nullable(),
  })
  .transform(({ afterHours, ...clinic }) => ({
    ...clinic,
    isStandard: afterHours === null,
    table: afterHours ?? standardAfterHours,
  }))
/** A clinic as what cannot wait needs it: when it is open, and its table. */
export type AfterHoursClinic = z.infer<typeof AfterHoursClinic>
const shape = AfterHoursClinic as unknown as z.ZodType<AfterHoursClinic>

export const afterHoursClinic = (tx: Tx, id: string): Promise<AfterHoursClinic | null> =>
  rowOf(tx, 'clinic', shape, sql`SELECT ${columns} FROM "Clinic" WHERE "id" = ${id}`)

export const afterHoursClinics = (tx: Tx): Promise<Rows<AfterHoursClinic>> =>
  rowsOf(tx, 'clinic', shape, sql`SELECT ${columns} FROM "Clinic" ORDER BY "id"`)

export async function saveAfterHours(tx: Tx, id: string, table: AfterHours | null): Promise<void> {
  await tx.clinic.update({ where: { id }, data: { afterHours: table ? JSON.stringify(table) : null } })
}
