import {
  chmodSync,
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
} from 'node:fs'
import path from 'node:path'
import Database from 'better-sqlite3'
import { Refusal } from '../domain/problem.ts'
import type { Tx } from './client.ts'
import { connect, databaseUrl } from './connect.ts'

/** The database file in use. */
export const databaseFile = (): string => path.resolve(databaseUrl().replace(/^file:/, ''))

/** What SQLite keeps beside a database file while it is open. */
const COMPANIONS = ['-wal', '-shm', '-journal']

/**
 * Copies the database of one instant into a new file, while the server may be writing: one reading transaction
 * sees one state, whatever is committed meanwhile. The file takes its name only once `check` has let it pass.
 * @throws Refusal conflict, not-found; what `check` throws
 */
export async function backUp(target: string, check: (tx: Tx) => Promise<void>): Promise<void> {
  const source = databaseFile()
  if (!existsSync(source)) throw new Refusal('not-found', `There is no database at ${source}.`)
  if (existsSync(target)) throw new Refusal('conflict', `${target} is there already; accepted: a new file.`)
  const making = `${target}.making`
  removeWhole(making)
  try {
    const db = new Database(source, { readonly: true, fileMustExist: true, timeout: 10_000 })
    try {
      db.prepare('VACUUM INTO ?').run(making)
    } finally {
      db.close()
    }
    chmodSync(making, 0o600)
    await checked(making, check)
    toDisk(making)
    renameSync(making, target)
    toDisk(path.dirname(path.resolve(target)))
  } finally {
    removeWhole(making)
  }
}

/**
 * Puts a backup in the place of the database. The database that was there is kept beside it, under the name that
 * is given back. Nothing is touched before the copy has passed `check`, and while anybody has the database open.
 * @throws Refusal not-found, conflict; what `check` throws
 */
export async function restore(
  from: string,
  { replace, stamp }: { replace: boolean; stamp: string },
  check: (tx: Tx) => Promise<void>,
): Promise<{ kept: string | null }> {
  if (!existsSync(from)) throw new Refusal('not-found', `There is no file ${from}.`)
  const target = databaseFile()
  const isThere = existsSync(target)
  if (isThere && !replace)
    throw new Refusal(
      'conflict',
      `There is a database at ${target}. It is replaced, and kept beside, with --replace.`,
    )
  if (isThere) requireAlone(target)
  const making = `${target}.restoring`
  mkdirSync(path.dirname(target), { recursive: true, mode: 0o700 })
  removeWhole(making)
  try {
    copyFileSync(from, making)
    await checked(making, check)
    toDisk(making)
    const kept = isThere ? `${target}.before-${stamp}` : null
    if (kept !== null) {
      requireAlone(target)
      renameSync(target, kept)
    }
    for (const companion of COMPANIONS) rmSync(target + companion, { force: true })
    renameSync(making, target)
    toDisk(path.dirname(target))
    return { kept }
  } finally {
    removeWhole(making)
  }
}

/**
 * Takes all that is written into the one file, and shows that nobody else has it open: SQLite leaves its
 * write-ahead log for the last one alone.
 */
function requireAlone(file: string): void {
  const db = new Database(file, { fileMustExist: true, timeout: 1_000 })
  try {
    db.pragma('journal_mode = DELETE')
  } catch (error) {
    if (error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY'))
      throw new Refusal(
        'conflict',
        `${file} is in use. Stop the server first, and every command that works on it.`,
      )
    throw error
  } finally {
    db.close()
  }
}

async function checked(file: string, check: (tx: Tx) => Promise<void>): Promise<void> {
  const client = connect(`file:${file}`, 'check')
  try {
    await check(client)
  } finally {
    await client.$disconnect()
  }
}

function removeWhole(file: string): void {
  for (const end of ['', ...COMPANIONS]) rmSync(file + end, { force: true })
}

/** Forces a file, or the names in a folder, to the disk. */
function toDisk(name: string): void {
  const opened = openSync(name, 'r')
  try {
    fsyncSync(opened)
  } finally {
    closeSync(opened)
  }
}
