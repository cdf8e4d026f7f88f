import type { HandOutDrain } from '@/lib/domain/hand-out.ts'
import type { DrainKind, Side } from '@/lib/domain/words.ts'

type Point = { x: number; y: number }
/** Where a drain is drawn: at the body, and its bag or bulb beside it. */
export type Place = { id: string; number: number; site: Point; vessel: Point; isBulb: boolean }

/** The middle of the picture, and how far from it and how high the drains of a kind are drawn. */
const MIDDLE = 100
const sites: Readonly<Record<DrainKind, { away: number; y: number; usual: Side }>> = {
  nephrostomy: { away: 21, y: 122, usual: 'middle' },
  nephroureteral: { away: 21, y: 122, usual: 'middle' },
  biliary: { away: 14, y: 106, usual: 'right' },
  cholecystostomy: { away: 17, y: 112, usual: 'right' },
  collection: { away: 13, y: 148, usual: 'middle' },
  pleural: { away: 21, y: 84, usual: 'middle' },
  bulb: { away: 16, y: 132, usual: 'middle' },
}

/** The person's left lies on the right of the picture, as when somebody stands before us. */
const directions: Readonly<Record<Side, number>> = { left: 1, middle: 0, right: -1 }

/** Nearer than this two marks would cover each other. */
const APART = 12
const LOWEST_VESSEL_Y = 196
const VESSELS_APART = 33

/**
 * Where each of these drains is drawn, numbered in their order. Bags stand in two columns beside the body, the one
 * of the highest drain on top, so that no tube crosses another's.
 */
export function placesOf(drains: readonly Pick<HandOutDrain, 'id' | 'kind' | 'side' | 'vessel'>[]): Place[] {
  const taken: Point[] = []
  let onLeft = 0
  const drawn = drains.map(({ id, kind, side, vessel }, i) => {
    const { away, y, usual } = sites[kind]
    const site = free({ x: MIDDLE + away * directions[side ?? usual], y }, taken)
    taken.push(site)
    const isRight = site.x > MIDDLE || (site.x === MIDDLE && onLeft > i - onLeft)
    if (!isRight) onLeft += 1
    return { id, number: i + 1, site, isRight, isBulb: vessel === null ? kind === 'bulb' : vessel === 'bulb' }
  })
  return drawn.map(({ isRight, ...place }) => {
    const below = drawn.filter(
      (other) => other.isRight === isRight && isLower(other.site, other.number, place.site, place.number),
    )
    const vessel = { x: isRight ? 180 : 20, y: LOWEST_VESSEL_Y - below.length * VESSELS_APART }
    return { ...place, vessel }
  })
}

const isLower = (site: Point, number: number, than: Point, thanNumber: number) =>
  site.y > than.y || (site.y === than.y && number > thanNumber)

function free(wanted: Point, taken: readonly Point[]): Point {
  const covers = (point: Point) =>
    taken.some(({ x, y }) => Math.abs(x - point.x) < APART && Math.abs(y - point.y) < APART)
  let site = wanted
  while (covers(site)) site = { x: site.x, y: site.y + APART }
  return site
}
