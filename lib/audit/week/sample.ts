import type { ReviewItem, Stratum } from '../../domain/review.ts'
import { READING_SECONDS } from '../../domain/week-page.ts'

/** What can be drawn: a flag at its opening, or a patient's day at an instant within it. */
export type Candidate = Pick<ReviewItem, 'kind' | 'patientId' | 'drain' | 'flagId' | 'at'>

/** All that can be drawn of a week. What is not pressing is drawn by nature, so that upkeep does not crowd out the rest. */
export type Frame = {
  atOnce: readonly Candidate[]
  withinHour: readonly Candidate[]
  clinical: readonly Candidate[]
  upkeep: readonly Candidate[]
  heard: readonly Candidate[]
  silent: readonly Candidate[]
}

/** A number in [0, 1), each time another. */
export type Chance = () => number

/** Of all items so many are read a second time, blind. */
const TWICE = 1 / 5
const MINUTES = 20
/** First readings that fit, beside the second readings of a fifth of as many. */
const FIT = Math.floor((MINUTES * 60) / READING_SECONDS / (1 + TWICE))
/** So many of what is not pressing are drawn however much presses. */
const LEAST = 12

/** How the places are shared out among what is sampled; a group that has fewer leaves its places to the others. */
const weights = { clinical: 6, upkeep: 2, heard: 4, silent: 4 } as const
type Sampled = keyof typeof weights
const sampled = Object.keys(weights) as Sampled[]

const strata: Readonly<Record<keyof Frame, Stratum>> = {
  atOnce: 'at-once',
  withinHour: 'within-1h',
  clinical: 'rest',
  upkeep: 'rest',
  heard: 'day-heard',
  silent: 'day-silent',
}

/**
 * Draws the items of a week: all that presses, and simple random samples without replacement of the rest, each item
 * with the chance that it had. Shuffled; at least a fifth, drawn at random too, is to be read twice.
 */
export function drawItems(week: string, frame: Frame, chance: Chance, newId: () => string): ReviewItem[] {
  const places = placesFor(frame)
  const drawn = (Object.keys(strata) as (keyof Frame)[]).flatMap((name) => {
    const all = frame[name]
    const take = name in places ? places[name as Sampled] : all.length
    const probability = take / all.length
    return shuffled(all, chance)
      .slice(0, take)
      .map((one) => ({ ...one, stratum: strata[name], probability }))
  })
  const items = shuffled(drawn, chance)
  const twice = new Set(
    shuffled(
      items.map((_, i) => i),
      chance,
    ).slice(0, Math.ceil(items.length * TWICE)),
  )
  return items.map((item, i) => ({ id: newId(), week, ...item, twice: twice.has(i), ordinal: i + 1 }))
}

/** One place after another to whichever group has the least of its share so far. */
function placesFor(frame: Frame): Record<Sampled, number> {
  const places: Record<Sampled, number> = { clinical: 0, upkeep: 0, heard: 0, silent: 0 }
  const pressing = frame.atOnce.length + frame.withinHour.length
  for (let left = Math.max(LEAST, FIT - pressing); left > 0; left--) {
    const [next] = sampled
      .filter((name) => places[name] < frame[name].length)
      .toSorted((a, b) => places[a] / weights[a] - places[b] / weights[b])
    if (!next) break
    places[next] += 1
  }
  return places
}

/** In random order, by the method of Fisher and Yates. */
function shuffled<T>(all: readonly T[], chance: Chance): T[] {
  const list = [...all]
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(chance() * (i + 1))
    const [a, b] = [list[i] as T, list[j] as T]
    list[i] = b
    list[j] = a
  }
  return list
}
