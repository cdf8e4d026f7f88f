import { z } from 'zod'
import { ClinicHours, type ClinicSettings, QuietHours } from '../domain/clinic-hours.ts'
import { TimeZone } from '../domain/instant.ts'
import type { Tx } from './client.ts'
import { Bit, json, type Rows, rowOf, rowsOf, sql, stored } from './rows.ts'

export const Clinic = z.object({
  id: z.string(),
  name: z.string(),
  timeZone: TimeZone,
  phone: z.string(),
  afterHoursPhone: z.string().nullable(),
  /** When somebody reads reports; null where the clinic has not said. */
  hours: json(ClinicHours).nullable(),
  /** When no reminder is sent; null where the clinic has not said. */
  quiet: json(QuietHours).nullable(),
  demo: Bit,
})
export type Clinic = z.infer<typeof Clinic>

/** What a clinic may be opened with: its hours come later, from its own staff. */
export type NewClinic = Omit<Clinic, 'hours' | 'quiet'> & Partial<Pick<Clinic, 'hours' | 'quiet'>>

export const clinicById = (tx: Tx, id: string): Promise<Clinic | null> =>
  rowOf(tx, 'clinic', Clinic, sql`SELECT * FROM "Clinic" WHERE "id" = ${id}`)

export async function addClinic(tx: Tx, { hours, quiet, ...clinic }: NewClinic, now: Date): Promise<void> {
  await tx.clinic.create({ data: { ...clinic, ...texts({ hours, quiet }), recordedAt: stored(now) } })
}

export async function saveClinic(
  tx: Tx,
  id: string,
  { hours, quiet, ...rest }: ClinicSettings,
): Promise<void> {
  await tx.clinic.update({ where: { id }, data: { ...rest, ...texts({ hours, quiet }) } })
}

const texts = ({ hours, quiet }: Partial<Pick<Clinic, 'hours' | 'quiet'>>) => ({
  hours: hours ? JSON.stringify(hours) : null,
  quiet: quiet ? JSON.stringify(quiet) : null,
})

export const allClinics = (tx: Tx): Promise<Rows<Clinic>> =>
  rowsOf(tx, 'clinic', Clinic, sql`SELECT * FROM "Clinic" ORDER BY "name", "id"`)
