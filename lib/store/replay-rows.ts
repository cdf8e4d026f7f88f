import { z } from 'zod'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'
import { sql, type Unreadable } from './rows.ts'

/*
 * The history of many patients at once. The database hands over one JSON text a patient and table, which is several
 * times as fast as a row each; every row is still read by itself, and one that cannot be is named and hides no other.
 */

/** Rows by patient, in the order asked for; what could not be read goes to `unreadable`. */
export type ByPatient<T> = { of(patientId: string): T[] }

export type RowsWanted<T> = {
  /** What such a row is, to a person. */
  what: string
  shape: z.ZodType<T>
  table: Prisma.ModelName
  columns: readonly string[]
  /** The column that says when the row became known. */
  knownAt: string
  order: readonly string[]
}

/** Columns that a record names otherwise than the store. */
const STORED: Readonly<Record<string, string>> = { drain: 'drainId' }

const names = (columns: readonly string[]) =>
  columns.map((column) => `'${column}', "${STORED[column] ?? column}"`).join(', ')

/**
 * All rows of one kind of some patients that were known by an instant.
 * @param patientIds as one JSON text
 */
export async function rowsByPatient<T>(
  tx: Tx,
  patientIds: string,
  until: string,
  { what, shape, table, columns, knownAt, order }: RowsWanted<T>,
  unreadable: Unreadable[],
): Promise<ByPatient<T>> {
  const list = Prisma.raw(
    `json_group_array(json_object(${names(columns)}) ORDER BY ${order.map((one) => (one === 'rowid' ? one : `"${one}"`)).join(', ')})`,
  )
  const found = await tx.$queryRaw<{ patientId: string; list: string }[]>(
    sql`SELECT "patientId", ${list} AS "list" FROM ${Prisma.raw(`"${table}"`)}
        WHERE "patientId" IN (SELECT value FROM json_each(${patientIds})) AND ${Prisma.raw(`"${knownAt}"`)} <= ${until}
        GROUP BY "patientId"`,
  )
  const byPatient = new Map<string, T[]>()
  for (const { patientId, list: text } of found)
    byPatient.set(patientId, readEach(what, shape, JSON.parse(text) as Raw[], unreadable))
  return { of: (patientId) => byPatient.get(patientId) ?? [] }
}

type Raw = Record<string, unknown>

function readEach<T>(what: string, shape: z.ZodType<T>, list: Raw[], unreadable: Unreadable[]): T[] {
  const rows: T[] = []
  for (const row of list) {
    const read = shape.safeParse(row)
    if (read.success) rows.push(read.data)
    else unreadable.push({ what, id: String(row.id ?? 'unknown'), why: z.prettifyError(read.error) })
  }
  return rows
}
