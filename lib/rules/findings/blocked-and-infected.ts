import { isBiliary, isUrinary } from '../../domain/words.ts'
import type { Stated } from '../series/prepare.ts'
import { chills, fevers } from '../series/statements.ts'
import type { Stretch } from '../series/stretches.ts'
import { ofSeries, ofTube } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { displaced } from './drain-out.ts'
import { drainMoved } from './drain-moved.ts'
import { blockedFlush } from './flush-blocked.ts'
import { leaking } from './leak.ts'
import { abruptDecline, outputDecline } from './output-decline.ts'
import { outputStopped, stoppedChain } from './output-stopped.ts'
import { type DrainRule, found, quiet, type Standing } from './rule.ts'
import { criterion, localTime, stated } from './telling.ts'

const DAY_MS = 86_400_000
const alone = (): Standing => ({ rank: 0, next: Number.POSITIVE_INFINITY })

/** What says that the drain does not do its work, in words, if it stands now or was evidenced within 24 h of a sign of infection. */
function obstruction(drain: DrainView, at: number, signs: readonly Stated<unknown>[]): string | null {
  const { view, facts, tube, output } = drain
  if (tube.cappedSince !== null) return 'the drain is capped'
  if (outputStopped.judge(drain, at, alone).urgency !== 'none') return 'output has stopped'
  if (outputDecline.judge(drain, at, alone).urgency !== 'none') return 'output has fallen'
  if (displaced(drain, 'out')) return 'the drain is out'
  if (drainMoved.judge(drain, at, alone).urgency !== 'none') return 'the drain has moved'
  if (leaking(drain)) return 'the site leaks'
  if (blockedFlush(drain)) return 'the flush is blocked'

  const near = (when: number) => signs.some((s) => Math.abs(s.when - when) < DAY_MS)
  const said = <T>(list: readonly Stated<T>[], is: (value: T) => boolean, own = ofSeries) =>
    list.some((s) => is(s.value) && own(tube, s.when) && near(s.when))
  if (tube.uncappedAt !== null && tube.uncappedAt >= tube.newest && near(tube.uncappedAt)) return 'the drain was capped'
  const positions = view.everStated(facts.positions)
  if (said(positions, (p) => p === 'out', ofTube)) return 'the drain was out'
  if (said(positions, (p) => p === 'moved', ofTube)) return 'the drain had moved'
  if (said(view.seen(facts.leaks), (yes) => yes)) return 'the site leaked'
  if (said(view.seen(facts.eases), (ease) => ease === 'blocked')) return 'a flush was blocked'
  if (said(view.seen(facts.drainings), (yes) => !yes)) return 'the drain was reported as not draining'
  if (drain.course === 'steady')
    for (let i = output.own.length - 1; i >= 0; i--) {
      if (!near((output.own[i] as Stretch).end)) continue
      if (stoppedChain(drain, i)) return 'output had stopped'
      if (abruptDecline(drain, i)) return 'output had fallen'
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
    const why = obstruction(drain, at, signs)
    if (!why) return quiet()
    const { zone } = view.record
    return found(
      'at-once',
      () => {
        const said = [
          fever.lead && `Temperature ${fever.lead.value} °C reported ${localTime(zone, fever.lead.at)}`,
          shaking.lead && `${fever.lead ? 'chills' : 'Chills'} reported ${localTime(zone, shaking.lead.at)}`,
        ].filter((text) => text)
        return {
          says: `${said.join(', ')}, and ${why}: a blocked and infected ${isUrinary(facts.kind) ? 'kidney' : 'bile duct'} is possible.`,
          ends: 'It ends once 24 h have passed without fever or chills, or with the drain working again and 24 h between the two.',
          evidence: [
            ...(fever.lead ? [stated(fever.lead, 'temperature', fever.lead.value, 'Cel')] : []),
            ...(shaking.lead ? [stated(shaking.lead, 'chills', true)] : []),
          ],
          threshold: criterion('fever with obstruction', `${limits.feverC} °C or chills`, 'Borofsky, J Urol 2013;189:946: infection above an obstruction is an emergency.', 'published'),
        }
      },
      Math.min(fever.next, shaking.next),
    )
  },
}
