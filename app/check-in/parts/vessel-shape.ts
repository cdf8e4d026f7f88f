import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { Vessel } from '@/lib/domain/vessel.ts'

/** Where the picture holds its lowest and its highest fluid, in its own units. */
export const BOTTOM = 204
export const TOP = 44

/** The outline of each vessel: nobody's in particular, and as plain as on a paper. */
export const outlines: Readonly<Record<Vessel, string>> = {
  bag: 'M22 30 h56 a10 10 0 0 1 10 10 V196 a12 12 0 0 1 -12 12 H58 v10 h-16 v-10 H24 a12 12 0 0 1 -12 -12 V40 a10 10 0 0 1 10 -10 Z',
  bulb: 'M42 12 h16 v20 C 76 44 92 74 92 120 C 92 176 74 208 50 208 C 26 208 8 176 8 120 C 8 74 24 44 42 32 Z',
  bottle:
    'M38 10 h24 v18 C 82 32 88 40 88 54 V196 a12 12 0 0 1 -12 12 H24 a12 12 0 0 1 -12 -12 V54 C 12 40 18 32 38 28 Z',
  cup: 'M8 28 H92 L82 200 a9 9 0 0 1 -9 8 H27 a9 9 0 0 1 -9 -8 Z',
}

/** What the fluid of this drain is most likely collected in, where nobody has said. */
export const vesselOf = ({ vessel, kind }: Pick<CheckInDrain, 'vessel' | 'kind'>): Vessel =>
  vessel ?? (kind === 'bulb' ? 'bulb' : kind === 'pleural' ? 'bottle' : 'bag')

/** Steps that people print on a scale. */
const STEPS = [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000]
const MOST_NUMBERS = 6
const MOST_MARKS = 30

/**
 * The marks of a vessel: `step` between two of them, `labels` where a number stands. The vessel's own smallest
 * mark where it is known and can be drawn.
 * @example scaleOf(600, 50) // { step: 50, labels: [100, 200, 300, 400, 500, 600] }
 */
export function scaleOf(capacityMl: number, markMl: number | null): { step: number; labels: number[] } {
  const between = STEPS.find((step) => capacityMl / step <= MOST_NUMBERS) ?? capacityMl
  const own = markMl !== null && markMl <= capacityMl && capacityMl / markMl <= MOST_MARKS ? markMl : null
  const fine =
    own ?? STEPS.findLast((step) => step < between && between % step === 0 && capacityMl / step <= 12)
  const step = fine ?? between
  const label = own === null || between % own === 0 ? between : own * Math.ceil(between / own)
  return { step, labels: upTo(capacityMl, label) }
}

export const upTo = (capacityMl: number, step: number): number[] =>
  Array.from({ length: Math.floor(capacityMl / step) }, (_, i) => Math.round((i + 1) * step * 100) / 100)

/** How high a volume stands in the picture; what is over the top stands at it. */
export const heightOf = (ml: number, capacityMl: number): number =>
  BOTTOM - (BOTTOM - TOP) * Math.min(1, Math.max(0, ml / capacityMl))

/** The mark nearest to a height in the picture. */
export function markAt(height: number, capacityMl: number, step: number): number {
  const share = (BOTTOM - height) / (BOTTOM - TOP)
  const ml = Math.round((share * capacityMl) / step) * step
  return Math.round(Math.min(capacityMl, Math.max(0, ml)) * 100) / 100
}
