import type { OwnThreshold } from '../../domain/rule-draft.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { limitsOf } from '../../rules/thresholds.ts'
import { OverrideLog } from '../../store/care-plans.ts'
import type { Tx } from '../../store/index.ts'
import { json } from '../../store/rows.ts'
import { ownThresholdsOf } from '../../store/rule-sets.ts'

/** Which way a drain's own value raises less than the clinic's: a lower share of baseline, a longer wait, a higher fever, more pain. */
const LOOSER: Readonly<Record<OwnThreshold['threshold'], 'lower' | 'higher'>> = {
  declineRatio: 'lower',
  stoppedHours: 'higher',
  feverC: 'higher',
  severePain: 'higher',
}

/**
 * The thresholds that were set for one drain, of all patients in follow-up: those that raise less than the clinic's set
 * first, the longest set first among them.
 */
export async function ownThresholds(
  tx: Tx,
  clinicId: string,
  rules: RuleSet,
  at: string,
  staffName: (id: string) => string,
): Promise<{ own: OwnThreshold[]; unreadable: string[] }> {
  const { rows, unreadable } = await ownThresholdsOf(tx, clinicId, at)
  const bad = unreadable.map(({ what, id, why }) => `${what} ${id}: ${why}`)
  const clinic = limitsOf(rules)
  const own = rows.flatMap(({ id, overrides, drain, patientId, name, birthDate, recordNumber }) => {
    const log = json(OverrideLog).safeParse(overrides)
    if (!log.success) {
      bad.push(`order ${id}: its thresholds cannot be read`)
      return []
    }
    return Object.entries(log.data).flatMap(([key, set]): OwnThreshold[] => {
      const threshold = OverrideLog.keyType.parse(key)
      if (!set) return []
      const looser =
        LOOSER[threshold] === 'lower' ? set.value < clinic[threshold] : set.value > clinic[threshold]
      return [
        {
          ...{ patientId, name, birthDate, recordNumber, drain, threshold },
          value: set.value,
          clinic: clinic[threshold],
          silences: looser,
          by: staffName(set.by),
          at: set.at,
          why: set.why,
        },
      ]
    })
  })
  own.sort((a, b) => Number(b.silences) - Number(a.silences) || Date.parse(a.at) - Date.parse(b.at))
  return { own, unreadable: bad }
}
