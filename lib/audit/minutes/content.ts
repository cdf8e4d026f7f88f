import type { LocalDate } from '../../domain/instant.ts'
import { findingLabels } from '../../domain/labels.ts'
import { addDays } from '../../domain/local-time.ts'
import { Refusal } from '../../domain/problem.ts'
import { Harm, type Review, Verdict } from '../../domain/review.ts'
import { newestOf, standingOf } from '../../domain/review-page.ts'
import { type MinutesContent, MinutesFigure, type MinutesVerdicts } from '../../domain/week-minutes.ts'
import { weekSpan } from '../../domain/week-page.ts'
import { FindingCode } from '../../domain/words.ts'
import { clinicById } from '../../store/clinics.ts'
import type { Tx } from '../../store/index.ts'
import { itemsOfWeek } from '../../store/review-items.ts'
import { reviewsOf } from '../../store/reviews.ts'
import { grouped, stored } from '../../store/rows.ts'
import { codesOfWeek } from '../../store/week-minutes.ts'
import { figuresWithin, primaryWithin } from '../figures/index.ts'
import { inForceOf, nameOf, placedSets, standing } from '../rules/sets.ts'

const DAYS = 'Days without a flag'

/**
 * What can be signed of a week, as it is known at an instant: figures, verdicts, the cut-off and the rule sets. The figures
 * are those of the seven days.
 * @throws Refusal not-found
 */
export async function composeMinutes(
  tx: Tx,
  clinicId: string,
  week: LocalDate,
  now: Date,
): Promise<MinutesContent> {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const { name, timeZone, demo } = clinic
  const { fromMs, untilMs } = weekSpan(week, timeZone)
  const [from, until] = [stored(new Date(fromMs)), stored(new Date(untilMs))]
  const { placed } = await placedSets(tx, clinicId)
  const figures = await figuresWithin(tx, clinicId, { from: week, until: addDays(week, 7) }, now)
  return {
    ...{ week, from, until },
    cutOff: stored(now),
    clinic: { name, timeZone, demo },
    ruleSet: nameOf(inForceOf(placed, stored(now)).set),
    ruleSets: standing(placed)
      .filter((one) => (one.from ?? '') < until && (one.until === null || one.until > from))
      .map((one) => ({ ...nameOf(one.set), from: one.from })),
    primary: (await primaryWithin(tx, clinicId, week, now)).primary,
    figures: figures.map((figure) => MinutesFigure.strip().parse(figure)),
    verdicts: await verdictsOf(tx, clinicId, week, stored(now)),
  }
}

/** The readings of a week as they stood at an instant. */
async function verdictsOf(tx: Tx, clinicId: string, week: LocalDate, at: string): Promise<MinutesVerdicts> {
  const { rows: items } = await itemsOfWeek(tx, clinicId, week)
  const codes = await codesOfWeek(tx, clinicId, week)
  const ids = items.map(({ id }) => id)
  const given = (await reviewsOf(tx, ids)).rows.filter((review) => stored(review.at) <= at)
  const reviews = grouped(given, ({ itemId }) => itemId)
  const read = items.map((item) => {
    const own = reviews.get(item.id) ?? []
    const code = codes.get(item.id)
    const label = item.kind === 'day' ? DAYS : code ? findingLabels[code] : 'Not known'
    return { label, own, ...standingOf(item.twice, own) }
  })
  const count = (isOne: (state: (typeof read)[number]['state']) => boolean) =>
    read.filter(({ state }) => isOne(state)).length
  const labels = [...FindingCode.options.map((code) => findingLabels[code]), 'Not known', DAYS]
  return {
    items: items.length,
    unread: count((state) => state === 'unread'),
    awaitSecond: count((state) => state === 'awaits-second'),
    disagreed: count((state) => state === 'disagreed'),
    settled: count((state) => state === 'settled'),
    lines: labels.flatMap((label) => {
      const holds = read.flatMap((one) => (one.label === label && one.counts ? [one.counts.verdict] : []))
      return holds.length > 0 ? [{ label, counts: tally(Verdict.options, holds) }] : []
    }),
    harm: tally(
      Harm.options,
      read.flatMap(({ counts, own }) => harmOf(counts, own)),
    ),
  }
}

/** Of an item whose verdict is not settled yet the harm of the first reading is told: harm must not wait for agreement. */
const harmOf = (counts: Review | null, own: readonly Review[]): Harm[] => {
  const told = counts ?? newestOf(own, 1)
  return told ? [told.harm] : []
}

const tally = <T extends string>(options: readonly T[], values: readonly T[]) =>
  Object.fromEntries(
    options.map((option) => [option, values.filter((value) => value === option).length]),
  ) as Record<T, number>
