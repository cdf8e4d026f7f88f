import type { Evidence } from '../../domain/assessment.ts'
import { isBiliary, isUrinary } from '../../domain/words.ts'
import type { Stated } from '../series/prepare.ts'
import { chills, fevers } from '../series/statements.ts'
import type { Stretch } from '../series/stretches.ts'
import { ofSeries, ofTube } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { drainMoved } from './drain-moved.ts'
import { drainOut } from './drain-out.ts'
import { flushBlocked } from './flush-blocked.ts'
import { leak } from './leak.ts'
import { abruptDecline, outputDecline } from './output-decline.ts'
import { outputStopped, stoppedChain } from './output-stopped.ts'
import { type DrainRule, found, quiet, type Standing } from './rule.ts'
import { criterion, localTime, noted, readingsOf, stated } from './telling.ts'

const DAY_MS = 86_400_000
const alone = (): Standing => ({ rank: 0, next: Number.POSITIVE_INFINITY })

/** What says that the drain does not do its work. */
interface Obstruction {
  why: string
  evidence: () => Evidence[]
}

/** What stands now, the weightiest first. */
function standing(drain: DrainView, at: number): Obstruction | null {
  const { tube } = drain
  const { cappedSince } = tube
  if (cappedSince !== null)
    return { why: 'the drain is capped', evidence: () => [noted(cappedSince, 'capped')] }
  const rules: [DrainRule, string][] = [
    [outputStopped, 'output has stopped'],
    [outputDecline, 'output has fallen'],
    [drainOut, 'the drain is out'],
    [drainMoved, 'the drain has moved'],
    [leak, 'the site leaks'],
    [flushBlocked, 'the flush is blocked'],
  ]
  for (const [rule, why] of rules) {
    const verdict = rule.judge(drain, at, alone)
    if (verdict.urgency !== 'none') return { why, evidence: () => verdict.tell().evidence }
  }
  return null
}

/** What has ended, but was evidenced within 24 h of a sign of infection, with this tube. */
function recent(drain: DrainView, signs: readonly Stated<unknown>[]): Obstruction | null {
  const { view, facts, tube, output } = drain
  const near = (when: number) => signs.some((s) => Math.abs(s.when - when) < DAY_MS)
  const { uncappedAt } = tube
  if (uncappedAt !== null && uncappedAt >= tube.newest && near(uncappedAt))
    return { why: 'the drain was capped', evidence: () => [noted(uncappedAt, 'uncapped')] }
  const said = <T extends string | boolean>(
    list: readonly Stated<T>[],
    value: T,
    what: string,
    why: string,
    own = ofSeries,
  ) => {
    const s = list.findLast((s) => s.value === value && own(tube, s.when) && near(s.when))
    return s ? { why, evidence: () => [stated(s, what, value)] } : null
  }
  const positions = view.everStated(facts.positions)
  const reported =
    said(positions, 'out', 'position', 'the drain was out', ofTube) ??
    said(positions, 'moved', 'position', 'the drain had moved', ofTube) ??
    said(view.seen(facts.leaks), true, 'leak', 'the site leaked') ??
    said(view.seen(facts.eases), 'blocked', 'flush', 'a flush was blocked') ??
    said(view.seen(facts.drainings), false, 'draining', 'the drain was reported as not draining')
  if (reported || drain.course !== 'steady') return reported
  for (let i = output.own.length - 1; i >= 0; i--) {
    const stretch = output.own[i] as Stretch
    if (!near(stretch.end)) continue
    const evidence = () => readingsOf([stretch])
    if (stoppedChain(drain, i)) return { why: 'output had stopped', evidence }
    if (abruptDecline(drain, i)) return { why: 'output had fallen', evidence }
  }
  return null
}

/**
 * Fever or chills while a kidney's or bile duct's drain does not do its work: is an obstructed, infected system possible?
 * Source: Borofsky, J Urol 2013;189:946: sepsis with an obstructing stone, mortality 19.2% undrained against 8.82% drained.
 */
export const blockedAndInfected: DrainRule = {
  code: 'blocked-and-infected',
  scope: 'drain',
  judge(drain, at) {
    const { view, facts, limits } = drain
    if (!isUrinary(facts.kind) && !isBiliary(facts.kind)) return quiet()
    const fever = fevers(view, at, limits.feverC)
    const shaking = chills(view, at)
    const signs = [...fever.list, ...shaking.list]
    if (signs.length === 0) return quiet()
    const obstruction = standing(drain, at) ?? recent(drain, signs)
    if (!obstruction) return quiet()
    const { zone } = view.record
    return found(
      'at-once',
      () => {
        const said = [
          fever.lead && `Temperature ${fever.lead.value} °C reported ${localTime(zone, fever.lead.at)}`,
          shaking.lead && `${fever.lead ? 'chills' : 'Chills'} reported ${localTime(zone, shaking.lead.at)}`,
        ].filter((text) => text)
        return {
          says: `${said.join(', ')}, and ${obstruction.why}: a blocked and infected ${isUrinary(facts.kind) ? 'kidney' : 'bile duct'} is possible.`,
          ends: 'It ends once 24 h have passed without fever or chills, or with the drain working again and 24 h between the two.',
          evidence: [
            ...(fever.lead ? [stated(fever.lead, 'temperature', fever.lead.value, 'Cel')] : []),
            ...(shaking.lead ? [stated(shaking.lead, 'chills', true)] : []),
            ...obstruction.evidence(),
          ],
          threshold: criterion(
            'fever with obstruction',
            `${limits.feverC} °C or chills`,
            'Borofsky, J Urol 2013;189:946: infection above an obstruction is an emergency.',
            'published',
          ),
        }
      },
      Math.min(fever.next, shaking.next),
    )
  },
}
