import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'

type Row = Readonly<Record<string, string | number | boolean | null>>

/**
 * Adds many rows to a table in one statement with one value, a JSON text that the database takes apart: for a
 * thousand rows that is several times as fast as a value for each field. The rows have the same fields; callers
 * check them against Prisma's types by `satisfies`.
 */
export async function insertMany(tx: Tx, table: Prisma.ModelName, rows: readonly Row[]): Promise<void> {
  const [first] = rows
  if (!first) return
  const columns = Object.keys(first)
  const named = Prisma.raw(columns.map((column) => `"${column}"`).join(', '))
  const fields = Prisma.raw(columns.map((_, i) => `value ->> ${i}`).join(', '))
  const text = JSON.stringify(rows.map((row) => columns.map((column) => row[column] ?? null)))
  await tx.$executeRaw`INSERT INTO ${Prisma.raw(`"${table}"`)} (${named}) SELECT ${fields} FROM json_each(${text})`
}
