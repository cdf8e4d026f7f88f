import { appendFileSync, mkdirSync } from 'node:fs'
import path from 'node:path'
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import { PrismaClient } from './generated/client.ts'

/** Where the data lies unless DATABASE_URL says otherwise; a relative path counts from the working folder. */
export const databaseUrl = () => process.env.DATABASE_URL ?? 'file:./.data/outflow.db'

/** Longest wait for another process's write lock. It blocks the thread, so it stays short. */
const BUSY_MS = 5_000

/** FULL: a commit is on the disk before it is answered, also when the power fails. */
const PRAGMAS = `PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA busy_timeout = ${BUSY_MS};`

class Sqlite extends PrismaBetterSqlite3 {
  override async connect() {
    const adapter = await super.connect()
    await adapter.executeScript(PRAGMAS)
    return adapter
  }
}

const queryLogFile = () => (process.env.OUTFLOW_TEST_MODE === '1' ? process.env.OUTFLOW_QUERY_LOG : undefined)

/** As a server in production says an error: nothing of what was to be written, and no stack is taken for each query. */
const errorFormat = 'minimal'

/** One connection of its own. `name` is who asks, as the query log of the test mode shows it. */
export function connect(url: string, name: string): PrismaClient {
  const file = path.resolve(url.replace(/^file:/, ''))
  mkdirSync(path.dirname(file), { recursive: true })
  const adapter = new Sqlite({ url: `file:${file}`, timeout: BUSY_MS })
  const log = queryLogFile()
  if (!log) return new PrismaClient({ adapter, errorFormat })
  const client = new PrismaClient({ adapter, errorFormat, log: [{ emit: 'event', level: 'query' }] })
  client.$on('query', ({ query, params }) => {
    appendFileSync(log, `${JSON.stringify({ connection: name, sql: query, params })}\n`)
  })
  return client as unknown as PrismaClient
}
