import type { Assessment, DrainOutput, Finding } from '../domain/assessment.ts'
import type { PatientRecord } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { type Urgency, urgencyHours, urgencyRank } from '../domain/words.ts'
import { drainOutput } from './drain-output.ts'
import { ask, History, questionsOf } from './moment.ts'
import { nextChange } from './next-check.ts'
import { prepare } from './series/prepare.ts'
import { sinceWhen } from './since.ts'

const HOUR_MS = 3_600_000
const iso = (ms: number) => new Date(ms).toISOString()

/**
 * What the rules say of a record at an instant.
 * Pure: the same record, rule set and instant give the same answer, whatever the order of the reports;
 * what was received after the instant is not looked at.
 * @param record one patient's record, valid by `readRecord`
 * @param rules thresholds, valid by `parseRuleSet`
 * @param now the instant, RFC 3339
 */
export function assess(record: PatientRecord, rules: RuleSet, now: string): Assessment {
  const at = Date.parse(now)
  const prepared = prepare(record, rules, at)
  const history = new History(prepared)
  const latest = history.view(prepared.known.length - 1)
  const findings = new Map<string, Finding>()
  let next = Number.POSITIVE_INFINITY
  for (const question of questionsOf(prepared)) {
    const verdict = ask(question, latest, at)
    if (verdict.next < next) next = Math.min(next, nextChange(question, latest, at, verdict))
    if (verdict.urgency === 'none') continue
    const drain = prepared.drains[question.drain]?.id ?? null
    const since = sinceWhen(question, history, verdict, at)
    findings.set(`${question.rule.code} ${drain}`, {
      code: question.rule.code,
      drain,
      nature: verdict.nature,
      urgency: verdict.urgency,
      since: iso(since),
      actBy: iso(since + (urgencyHours[verdict.urgency] as number) * HOUR_MS),
      ...verdict.tell(),
    })
  }
  const list = [...findings.values()].sort(
    (a, b) => urgencyRank[b.urgency] - urgencyRank[a.urgency] || Date.parse(a.actBy) - Date.parse(b.actBy),
  )
  const drains: DrainOutput[] = latest.drains.map((drain) => drainOutput(drain, at))
  return {
    asOf: iso(at),
    ruleSet: rules.version,
    urgency: list.reduce<Urgency>(
      (most, f) => (urgencyRank[f.urgency] > urgencyRank[most] ? f.urgency : most),
      'none',
    ),
    actBy: list.length > 0 ? iso(Math.min(...list.map((f) => Date.parse(f.actBy)))) : null,
    nextCheckAt: next === Number.POSITIVE_INFINITY ? null : iso(next),
    findings: list,
    drains,
  }
}
