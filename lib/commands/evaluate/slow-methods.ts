import { cusum } from '../../rules/statistics/cusum.ts'
import { ewma } from '../../rules/statistics/ewma.ts'
import { mad } from '../../rules/statistics/mad.ts'
import { mannKendall } from '../../rules/statistics/mann-kendall.ts'
import { median } from '../../rules/statistics/median.ts'
import { theilSen } from '../../rules/statistics/theil-sen.ts'

/** One complete day of a drain, as the rules see it. */
export type WholeDay = { readonly day: number; readonly netMl: number }
/** Says whether the days, oldest first, show a sustained fall. */
export type SlowMethod = {
  readonly family: Family
  readonly name: string
  readonly signals: (days: readonly WholeDay[]) => boolean
}
export type Family = 'EWMA' | 'CUSUM' | 'Theil–Sen' | 'Mann–Kendall'
export const families: readonly Family[] = ['EWMA', 'CUSUM', 'Theil–Sen', 'Mann–Kendall']

const REFERENCE_MOST = 21
const REFERENCE_LEAST = 5
const CHARTED_LEAST = 3
const SIGMA_LEAST_ML = 15

/** The latest days in units of the drain’s own spread about its own centre, both taken from the days before them. */
function charted(
  days: readonly WholeDay[],
  most: number,
  sigmaShare: number,
  atMost: number,
): number[] | null {
  const count = Math.min(most, days.length - REFERENCE_LEAST)
  if (count < CHARTED_LEAST) return null
  const reference = days
    .slice(0, -count)
    .slice(-REFERENCE_MOST)
    .map((day) => day.netMl)
  const centre = median(reference)
  const sigma = Math.max(mad(reference), sigmaShare * centre, SIGMA_LEAST_ML)
  return days.slice(-count).map((day) => Math.min(atMost, Math.max(-atMost, (day.netMl - centre) / sigma)))
}

function fallen(days: readonly WholeDay[], to: number): (value: number) => boolean {
  const centre = median(
    days
      .slice(0, -CHARTED_LEAST)
      .slice(-REFERENCE_MOST)
      .map((day) => day.netMl),
  )
  return (value) => value < (1 - to) * centre
}

const steady = (values: readonly number[]): WholeDay[] =>
  [...Array<number>(14).fill(400), ...values].map((netMl, day) => ({ day, netMl }))

/**
 * What the nurse was promised, whatever the figures: one or two days of nothing are no slow change (the abrupt
 * form tells of them), and a drain that brought little more than half for three whole days is one.
 */
export const keepsPromise = ({ signals }: SlowMethod): boolean =>
  !signals(steady([0])) && !signals(steady([0, 0])) && signals(steady([225, 230, 220]))

/** Every method with the settings among which the tuning seeds choose. */
export const slowMethods: readonly SlowMethod[] = [
  ...[5, 7, 10].flatMap((most) =>
    [0.15, 0.2, 0.25].flatMap((share) =>
      [1.5, 2, 2.5].flatMap((atMost) => [
        ...[0.2, 0.3, 0.4].flatMap((lambda) =>
          [2.5, 2.8, 3, 3.5].map(
            (width): SlowMethod => ({
              family: 'EWMA',
              name: `λ ${lambda}, width ${width}, latest ${most} days, σ ≥ ${share} × centre, days within ± ${atMost} σ`,
              signals: (days) => {
                const values = charted(days, most, share, atMost)
                if (!values) return false
                const { averages, lower } = ewma(values, { target: 0, sigma: 1, lambda, width })
                return (averages.at(-1) ?? 0) < lower
              },
            }),
          ),
        ),
        ...[0.5, 0.75].flatMap((allowance) =>
          [2, 3, 4, 5].map(
            (decision): SlowMethod => ({
              family: 'CUSUM',
              name: `k ${allowance}, h ${decision}, latest ${most} days, σ ≥ ${share} × centre, days within ± ${atMost} σ`,
              signals: (days) => {
                const values = charted(days, most, share, atMost)
                return (
                  values !== null &&
                  (cusum(values, { target: 0, allowance, decision }).low.at(-1) ?? 0) > decision
                )
              },
            }),
          ),
        ),
      ]),
    ),
  ),
  ...[7, 10, 14].flatMap((most) =>
    [0.2, 0.3, 0.4, 0.5].flatMap((fall) =>
      ([90, 95, 99] as const).map(
        (level): SlowMethod => ({
          family: 'Theil–Sen',
          name: `latest ${most} days, slope below 0 at ${level}%, line now ${fall * 100}% under centre`,
          signals: (days) => {
            const latest = days.slice(-most)
            if (latest.length < 7 || days.length < REFERENCE_LEAST + CHARTED_LEAST) return false
            const line = theilSen(
              latest.map(({ day, netMl }) => ({ x: day, y: netMl })),
              level,
            )
            return (
              line.enough &&
              line.high < 0 &&
              fallen(days, fall)(line.intercept + line.slope * (latest.at(-1)?.day ?? 0))
            )
          },
        }),
      ),
    ),
  ),
  ...[10, 14].flatMap((most) =>
    [0, 0.2, 0.3, 0.4].flatMap((fall) =>
      [0.05, 0.01, 0.001].map(
        (p): SlowMethod => ({
          family: 'Mann–Kendall',
          name: `latest ${most} days, one-sided p < ${p}, median of 3 days ${fall * 100}% under centre`,
          signals: (days) => {
            const latest = days.slice(-most).map((day) => day.netMl)
            const trend = mannKendall(latest)
            return trend.enough && trend.pFall < p && fallen(days, fall)(median(latest.slice(-3)))
          },
        }),
      ),
    ),
  ),
]
