import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'

type Row = Readonly<Record<string, string | number | boolean | null | undefined>>

const columnsOf = (row: Row) => Object.keys(row)
const quoted = (columns: readonly string[]) => Prisma.raw(columns.map((column) => `"${column}"`).join(', '))
const valuesOf = (row: Row, columns: readonly string[]) =>
  Prisma.sql`(${Prisma.join(columns.map((column) => row[column] ?? null))})`

/**
 * Adds rows to a table in one statement: on the way of every report, Prisma's own `createMany` takes ten times as
 * long. The rows of one call have the same fields; callers check them against Prisma's types by `satisfies`.
 */
export async function insert(tx: Tx, table: Prisma.ModelName, rows: readonly Row[]): Promise<void> {
  const [first] = rows
  if (!first) return
  const columns = columnsOf(first)
  const values = Prisma.join(rows.map((row) => valuesOf(row, columns)))
  await tx.$executeRaw`INSERT INTO ${Prisma.raw(`"${table}"`)} (${quoted(columns)}) VALUES ${values}`
}

/** Stores a row under its key, whether it is there or not; fields that the row does not name stay. */
export async function put(tx: Tx, table: Prisma.ModelName, key: string, row: Row): Promise<void> {
  const columns = columnsOf(row)
  const changed = columns
    .filter((column) => column !== key)
    .map((column) => `"${column}" = excluded."${column}"`)
  await tx.$executeRaw`INSERT INTO ${Prisma.raw(`"${table}"`)} (${quoted(columns)}) VALUES ${valuesOf(row, columns)}
    ON CONFLICT (${quoted([key])}) DO UPDATE SET ${Prisma.raw(changed.join(', '))}`
}
