import { z } from 'zod'
import type { Tx } from './client.ts'
import { Prisma } from './generated/client.ts'

export const sql = Prisma.sql

/** A row of the store that could not be read: named, so that it hides no other and is not silently left out. */
export const Unreadable = z.strictObject({ what: z.string(), id: z.string(), why: z.string() })
export type Unreadable = z.infer<typeof Unreadable>

/** Rows that could be read, and those that could not. */
export type Rows<T> = { rows: T[]; unreadable: Unreadable[] }

/** Runs one query and reads each row by itself. `what` names the kind of row to a person. */
export async function rowsOf<T>(
  tx: Tx,
  what: string,
  shape: z.ZodType<T>,
  query: Prisma.Sql,
): Promise<Rows<T>> {
  const found = await tx.$queryRaw<Record<string, unknown>[]>(query)
  const rows: T[] = []
  const unreadable: Unreadable[] = []
  for (const row of found) {
    const read = shape.safeParse(row)
    if (read.success) rows.push(read.data)
    else unreadable.push({ what, id: String(row.id ?? row.patientId ?? 'unknown'), why: reason(read.error) })
  }
  return { rows, unreadable }
}

/** The only row, or null; a row that cannot be read is an error here, since nothing stands beside it. */
export async function rowOf<T>(
  tx: Tx,
  what: string,
  shape: z.ZodType<T>,
  query: Prisma.Sql,
): Promise<T | null> {
  const { rows, unreadable } = await rowsOf(tx, what, shape, query)
  if (unreadable[0])
    throw new Error(`store: ${what} ${unreadable[0].id} cannot be read: ${unreadable[0].why}`)
  return rows[0] ?? null
}

const reason = (error: z.ZodError) =>
  error.issues
    .slice(0, 3)
    .map((issue) => `${issue.path.join('.') || 'row'}: ${issue.message}`)
    .join('; ')

/** SQLite's 0 and 1, as numbers or big integers, or a ready boolean. */
export const Bit = z
  .union([z.boolean(), z.literal([0, 1]), z.literal([0n, 1n])], { error: 'accepted: 0 or 1' })
  .transform(Boolean)

/** A JSON text that holds a given shape. */
export const json = <T>(shape: z.ZodType<T>) =>
  z.string().transform((text, context): T => {
    try {
      const read = shape.safeParse(JSON.parse(text))
      if (read.success) return read.data
      context.addIssue({ code: 'custom', message: reason(read.error) })
    } catch {
      context.addIssue({ code: 'custom', message: 'is no JSON' })
    }
    return z.NEVER
  })

/** An instant as the store keeps it: UTC to the millisecond, so that texts sort as time. */
export const stored = (instant: string | Date): string => new Date(instant).toISOString()

/** Whether a row still counted at an instant: what was withdrawn later counted then. */
export const countedAt =
  (until: string) =>
  ({ withdrawnAt }: { withdrawnAt: string | null }): boolean =>
    withdrawnAt === null || withdrawnAt > until

export const newId = (): string => crypto.randomUUID()

/** Rows by a key, in their order. */
export function grouped<T>(rows: readonly T[], keyOf: (row: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const row of rows) {
    const group = groups.get(keyOf(row))
    if (group) group.push(row)
    else groups.set(keyOf(row), [row])
  }
  return groups
}
