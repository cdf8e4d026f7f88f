import type { Tx } from './client.ts'

/** What the database itself finds wrong with its file: damaged pages, and rows that point at nothing. None: an empty list. */
export async function databaseFaults(tx: Tx): Promise<string[]> {
  const pages = await tx.$queryRawUnsafe<{ integrity_check: string }[]>('PRAGMA integrity_check(20)')
  const orphans =
    await tx.$queryRawUnsafe<{ table: string; rowid: number | bigint | null; parent: string }[]>(
      'PRAGMA foreign_key_check',
    )
  return [
    ...pages.map((row) => row.integrity_check).filter((said) => said !== 'ok'),
    ...orphans.slice(0, 20).map(({ table, rowid, parent }) => `${table} row ${rowid} points at no ${parent}`),
  ]
}
