import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { closeStore } from '../../store/index.ts'
import { migrate } from '../setup/prisma.mjs'

/** Runs `work` on an empty database in a folder of its own, which goes with it. */
export async function withOwnStore<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(path.join(tmpdir(), 'outflow-bench-'))
  const url = `file:${path.join(folder, 'outflow.db')}`
  await migrate({ DATABASE_URL: url })
  try {
    return await onStore(url, () => work(folder))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Runs `work` with the store of this process open on a database, and lets go of it again. */
export async function onStore<T>(databaseUrl: string, work: () => Promise<T>): Promise<T> {
  const before = process.env.DATABASE_URL
  await closeStore()
  process.env.DATABASE_URL = databaseUrl
  try {
    return await work()
  } finally {
    await closeStore()
    if (before === undefined) delete process.env.DATABASE_URL
    else process.env.DATABASE_URL = before
  }
}
