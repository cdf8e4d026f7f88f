import { atLeast } from '../compare.ts'
import type { ReadingValue, Stated } from '../series/prepare.ts'
import { overfull, timeIsSuspect } from '../series/stretches.ts'
import { ofSeries } from '../series/tube.ts'
import type { DrainView } from '../series/view.ts'
import { type DrainRule, found, quiet, type Telling } from './rule.ts'
import { hoursText, localTime, mL, reading, threshold } from './telling.ts'

const DAY_MS = 86_400_000

interface Suspicion {
  reading: Stated<ReadingValue>
  why: () => Pick<Telling, 'says' | 'threshold'>
}

/** Whether a reading is still in question: nobody has closed the finding since, and it is not too long ago. */
const inQuestion = (
  drain: DrainView,
  r: Stated<ReadingValue>,
  closedAt: number | null,
  at: number,
): boolean => (closedAt === null || r.receivedAt > closedAt) && standsUntil(drain, r) > at

const standsUntil = ({ limits }: DrainView, r: Stated<ReadingValue>): number =>
  r.receivedAt + limits.suspectStandsDays * DAY_MS

/** Those of the readings in question that cannot be right as they stand, each with the reason. */
function suspicions(drain: DrainView, at: number): Suspicion[] {
  const { view, facts, limits, tube } = drain
  const zone = view.record.zone
  const closedAt = drain.closedAt('reading-suspect')
  const list: Suspicion[] = []
  for (const r of view.seen(facts.readings)) {
    if (!inQuestion(drain, r, closedAt, at)) continue
    if (timeIsSuspect(drain, r)) {
      if (tube.start !== facts.placedAt && r.receivedAt <= tube.start) continue
      const early = r.at < facts.placedAt
      list.push({
        reading: r,
        why: () => ({
          says: `A reading is dated ${localTime(zone, r.at)}, ${early ? 'before the drain was placed' : `later than it was received (${localTime(zone, r.receivedAt)})`}; it enters no sum.`,
          threshold: threshold('suspectFutureMinutes', limits),
        }),
      })
    } else if (ofSeries(tube, r.at) && overfull(drain, r))
      list.push({
        reading: r,
        why: () => ({
          says: `A reading of ${mL(r.value.volumeMl as number)} ${localTime(zone, r.at)} is more than ${limits.suspectBagMultiple} × the bag's ${mL(facts.bagCapacityMl as number)}.`,
          threshold: threshold('suspectBagMultiple', limits),
        }),
      })
  }
  for (const { stretch, expectedMl } of drain.output.suspicions)
    for (const r of stretch.readings) {
      if (!inQuestion(drain, r, closedAt, at)) continue
      const volumeMl = stretch.volumeMl as number
      const low = atLeast(expectedMl, volumeMl)
      list.push({
        reading: r,
        why: () => ({
          says: `A reading of ${mL(volumeMl)} over ${hoursText(stretch.hours)} ${localTime(zone, r.at)}, where ${mL(expectedMl)} would be usual: ${low ? 'ounces written as mL' : 'mL taken for ounces'} is possible.`,
          threshold: threshold(low ? 'ounceRatioLow' : 'ounceRatioHigh', limits),
        }),
      })
    }
  return list
}

/**
 * Can a reading not be right as it stands?
 * More than two bags full, off by the size of an ounce, or dated when it cannot have been. It is kept and
 * shown, and never silences another finding.
 */
export const readingSuspect: DrainRule = {
  code: 'reading-suspect',
  scope: 'drain',
  judge(drain, at) {
    let standing: Suspicion | null = null
    for (const s of suspicions(drain, at))
      if (!standing || s.reading.receivedAt > standing.reading.receivedAt) standing = s
    if (!standing) return quiet()
    const { reading: r, why } = standing
    return found(
      'within-3d',
      () => ({
        ...why(),
        ends: `It ends when the reading is corrected, when the flag is closed, with a new tube, or ${drain.limits.suspectStandsDays} days after its receipt.`,
        evidence: [reading(r)],
      }),
      standsUntil(drain, r),
    )
  },
}
