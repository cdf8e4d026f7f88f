import { readFileSync, rmSync } from 'node:fs'
import path from 'node:path'
import { closeStore } from '../../store/index.ts'

/** One statement as it was sent to the database, with its values. */
export type Statement = { sql: string; values: unknown[] }

/** The statements that a piece of work reads with, in their order; begin and commit are left out. */
export async function statementsOf(folder: string, work: () => Promise<unknown>): Promise<Statement[]> {
  const log = path.join(folder, 'queries.log')
  await closeStore()
  Object.assign(process.env, { OUTFLOW_TEST_MODE: '1', OUTFLOW_QUERY_LOG: log })
  try {
    await work()
  } finally {
    await closeStore()
    delete process.env.OUTFLOW_TEST_MODE
    delete process.env.OUTFLOW_QUERY_LOG
  }
  const lines = readFileSync(log, 'utf8').trim().split('\n')
  rmSync(log)
  return lines
    .map((line) => JSON.parse(line) as { sql: string; params: string })
    .filter(({ sql }) => /^\s*(SELECT|WITH)/i.test(sql))
    .map(({ sql, params }) => ({ sql, values: JSON.parse(params) }))
}
