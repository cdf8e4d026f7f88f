import { statSync } from 'node:fs'
import { verifyChain } from '../../access/index.ts'
import { now } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import { clinicsWithAccessRows } from '../../store/access-records.ts'
import { databaseFaults } from '../../store/check.ts'
import { backUp, databaseFile, restore } from '../../store/copies.ts'
import type { Tx } from '../../store/index.ts'
import { type Command, done } from './command.ts'

/**
 * Looks a copy over before anybody relies on it: the file itself, and every clinic's access record.
 * @throws Refusal conflict
 */
async function requireSound(tx: Tx): Promise<void> {
  const faults = await databaseFaults(tx).catch((error: unknown) => [
    error instanceof Error ? (error.message.trim().split('\n').at(-1) ?? 'cannot be read') : String(error),
  ])
  if (faults.length > 0)
    throw new Refusal(
      'conflict',
      ['The copy is not sound:', ...faults.map((fault) => `  ${fault}`)].join('\n'),
    )
  for (const clinic of await clinicsWithAccessRows(tx)) {
    const verdict = await verifyChain(tx, clinic)
    if (!verdict.whole)
      throw new Refusal('conflict', `The copy's access record of ${clinic} is broken: ${verdict.broken}`)
  }
}

const backup: Command = {
  does: 'copies the database into a new file, while the server runs, and looks the copy over',
  needs: {},
  takes: {},
  operand: 'FILE',
  run: async ({ FILE = '' }) => {
    await backUp(FILE, requireSound)
    return done(
      `${FILE}: whole, ${statSync(FILE).size} bytes; the access record is whole`,
      'It holds what patients said: keep it as safe as the database, and keep the file secret (or AUTH_SECRET) with it.',
    )
  },
}

const restoreBackup: Command = {
  does: 'puts a backup in the place of the database, which is kept beside it; the server must be stopped',
  needs: {},
  takes: {},
  operand: 'FILE',
  switches: ['replace'],
  run: async ({ FILE = '', replace }) => {
    const stamp = now()
      .toISOString()
      .replace(/[-:]|\.\d+/g, '')
    const { kept } = await restore(FILE, { replace: replace === 'yes', stamp }, requireSound)
    return done(
      `${databaseFile()} is now as ${FILE}`,
      ...(kept ? [`What was there is kept in ${kept}.`] : []),
      'Start the server: it takes the database to its own version by itself.',
    )
  },
}

export const backupCommands = { backup, restore: restoreBackup }
