import { addressTrouble, verifyChain } from '../../access/index.ts'
import { Refusal } from '../../domain/problem.ts'
import { clinicsWithAccessRows } from '../../store/access-records.ts'
import { databaseFaults } from '../../store/check.ts'
import { read } from '../../store/index.ts'
import { outboxCounts } from '../../store/outbox-due.ts'
import type { Command } from './command.ts'

async function chains(
  clinic: string | undefined,
  head: string | undefined,
): Promise<{ lines: string[]; ok: boolean }> {
  const clinics = clinic ? [clinic] : await read(clinicsWithAccessRows)
  if (head && clinics.length !== 1)
    throw new Refusal('invalid-input', '--head belongs to one clinic: name it with --clinic')
  const [, seq, hash] = /^(\d+):([0-9a-f]{64})$/.exec(head ?? '') ?? []
  if (head && !(seq && hash))
    throw new Refusal('invalid-input', '--head: accepted: SEQ:HASH as the server logs it at its start')
  const known = seq && hash ? { seq: Number(seq), hash } : undefined
  const verdicts = []
  for (const id of clinics) verdicts.push(await read((tx) => verifyChain(tx, id, known)))
  return {
    lines: verdicts.map((verdict) =>
      verdict.whole
        ? `access record of ${verdict.clinicId}: whole, ${verdict.rows} rows, head ${verdict.rows}:${verdict.head}`
        : `access record of ${verdict.clinicId}: BROKEN, ${verdict.broken}`,
    ),
    ok: verdicts.every(({ whole }) => whole),
  }
}

const verify: Command = {
  does: 'walks the access record: a changed, removed or moved row breaks its chain',
  needs: {},
  takes: { clinic: 'ID', head: 'SEQ:HASH' },
  run: ({ clinic, head }) => chains(clinic, head),
}

const check: Command = {
  does: 'looks over the database file, the access record, the outbox and the settings',
  needs: {},
  takes: {},
  run: async () => {
    const faults = await read(databaseFaults)
    const record = await chains(undefined, undefined)
    const { waiting, givenUp } = await read(outboxCounts)
    const trouble = addressTrouble()
    return {
      lines: [
        faults.length ? `database: ${faults.length} faults` : 'database: whole',
        ...faults.map((fault) => `  ${fault}`),
        ...record.lines,
        `outbox: ${waiting} waiting`,
        ...givenUp.map(({ why, letters }) => `  ${letters} given up: ${why}`),
        trouble ? `settings: ${trouble}` : 'settings: fit for signing in',
      ],
      ok: faults.length === 0 && record.ok && trouble === null,
    }
  },
}

export const checkCommands = { verify, check }
