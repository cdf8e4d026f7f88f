import type { Position } from '../../domain/words.ts'
import { isUrinary } from '../../domain/words.ts'
import type { Stated } from '../series/prepare.ts'
import { ofTube } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet } from './rule.ts'
import { criterion, localTime, stated } from './telling.ts'

/**
 * The newest statement of this tube that gives a position and that nobody has closed since. What a
 * later report or a correction says does not take it back: a tube that was out is looked at.
 */
export function displaced(
  drain: DrainView,
  position: Position,
  endedAt: number | null = null,
): Stated<Position> | null {
  const closedAt = drain.closedAt(position === 'out' ? 'drain-out' : 'drain-moved')
  return (
    drain.facts.positions.findLast(
      (s) =>
        s.value === position &&
        s.receivedAt <= drain.view.cut &&
        ofTube(drain.tube, s.when) &&
        !(closedAt !== null && s.receivedAt <= closedAt) &&
        !(endedAt !== null && s.when <= endedAt),
    ) ?? null
  )
}

/**
 * Is the drain out?
 * True once 'out' was reported of this tube, until it was removed, replaced, exchanged, placed anew or the flag closed.
 * Source: a tract closes within hours (Sarkar & Parr, BMJ Innov 4(3):113: seen within 8 h of displacement).
 */
export const drainOut: DrainRule = {
  code: 'drain-out',
  scope: 'drain',
  judge(drain) {
    const out = displaced(drain, 'out')
    if (!out) return quiet()
    return found(drain.facts.kind === 'bulb' ? 'within-1h' : 'at-once', () => ({
      says: `The drain was reported out ${localTime(drain.view.record.zone, out.at)}${isUrinary(drain.facts.kind) ? '; its tract can close within hours' : ''}.`,
      ends: 'It ends when the drain is recorded as replaced, exchanged, placed or removed, or when the flag is closed; a later report does not end it.',
      evidence: [stated(out, 'position', out.value)],
      threshold: criterion(
        'position',
        'out',
        'Sarkar & Parr, BMJ Innov 4(3):113: a tube through the old tract if seen within 8 h.',
        'published',
      ),
    }))
  },
}
