import { beforeEach, expect, it } from 'vitest'
import type { Life } from '../../../lib/audit/replay/kept.ts'
import { replayPatient } from '../../../lib/audit/replay/replay-patient.ts'
import { fillClinic } from '../../../lib/commands/bench/replay-panel.ts'
import type { RuleSet } from '../../../lib/domain/ruleset.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'
import { read } from '../../../lib/store/index.ts'
import { historiesOf, type PatientHistory } from '../../../lib/store/replay-history.ts'
import { databasePerTest } from '../../store/database.ts'

databasePerTest()

const DAY_MS = 86_400_000
const START = Date.parse('2026-03-02T15:00:00Z')
const DAYS = 26
const until = START + DAYS * DAY_MS
const from = START + 10 * DAY_MS

let histories: PatientHistory[] = []

beforeEach(async () => {
  await fillClinic(4, DAYS, START, () => undefined)
  const ids = (await read((tx) => tx.patient.findMany())).map(({ id }) => id)
  histories = await read((tx) => historiesOf(tx, 'bench', ids, new Date(until).toISOString()))
}, 60_000)

const told = (lives: readonly Life[]) =>
  lives
    .map(({ flag: { id: _, ...flag }, steps, peak, spans }) =>
      JSON.stringify([
        ...[flag.code, flag.drain, flag.state, flag.urgency, flag.since, flag.actBy, flag.openedAt],
        ...[flag.endedAt, flag.closedAt, flag.lookAgainAt, flag.spokenAt, peak, spans],
        ...[flag.finding.says, flag.finding.threshold],
        steps.map(({ at, kind, urgency, why }) => [at, kind, urgency, why]),
      ]),
    )
    .sort()

/** The draft as a rule set that came into force then, gone through by itself from beginning to end. */
const byItself = (history: PatientHistory, draft: RuleSet) => {
  const sets = [
    { from: Number.NEGATIVE_INFINITY, rules: standardRuleSet },
    { from, rules: draft },
  ]
  return told(replayPatient(history, sets, null, { from, until }).inForce)
}

it('a draft’s flags are those that it would have opened by itself, whichever threshold it changes', () => {
  const inForce = [{ from: Number.NEGATIVE_INFINITY, rules: standardRuleSet }]
  let changed = 0
  for (const [name, threshold] of Object.entries(standardRuleSet.thresholds))
    for (const value of [threshold.min, threshold.max]) {
      if (value === threshold.value) continue
      const thresholds = { ...standardRuleSet.thresholds, [name]: { ...threshold, value } }
      const draft: RuleSet = { version: 'draft', thresholds }
      for (const history of histories) {
        const both = replayPatient(history, inForce, draft, { from, until })
        expect(told(both.draft), `${name} ${value}`).toEqual(byItself(history, draft))
        if (told(both.draft).join() !== told(both.inForce).join()) changed++
      }
    }
  // Else it would show nothing.
  expect(changed).toBeGreaterThan(30)
}, 120_000)
