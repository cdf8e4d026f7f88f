import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import { UNCONFIRMED_MAX_ML, VOLUME_MAX_ML } from '@/lib/domain/limits.ts'
import type { Say } from '../words/catalogue.ts'
import type { Check } from './checks.ts'
import type { DrainAnswers } from './draft.ts'
import { emptyingsOf, fillsBag } from './emptyings.ts'
import { volumeInMl } from './numbers.ts'
import { amountOf } from './shown-back.ts'

/** The unit of a number is confirmed until so many readings of a drain were sent: first ones are the least sure. */
const UNIT_SURE_AFTER = 3
/** Ounces written as millilitres, or the other way: a factor of 29.6, give or take. */
const OUNCES_LOW = 24
const OUNCES_HIGH = 36
/** So many times more or less than the person mostly writes, and so far from it, is asked again (local choice). */
const UNUSUAL_FACTOR = 4
const UNUSUAL_ML = 100
/** Readings from which 'mostly' can be told. */
const USUAL_FROM = 2

/** What to look at in a measured volume: one thing at a time, the plainest first. Field names are without the drain. */
export function volumeChecks(answers: DrainAnswers, drain: CheckInDrain, say: Say): Check[] {
  const field = 'volume'
  const unit = answers.unit ?? 'mL'
  const ml = volumeInMl(answers.volume, unit)
  if (ml === null) return [{ field, message: say('ask.volumeNumber') }]
  if (ml > VOLUME_MAX_ML) return [{ field, message: say('ask.volumeTooLarge') }]
  return [
    ...emptyingChecks(answers, drain, ml, say),
    ...unitChecks(answers, drain, ml, say),
    ...unusual(answers, drain, ml, say),
  ]
}

function emptyingChecks(answers: DrainAnswers, drain: CheckInDrain, ml: number, say: Say): Check[] {
  if (emptyingsOf(answers, drain)) return []
  const bag = drain.bagCapacityMl
  const message =
    bag !== null && fillsBag(answers, drain) ? say('ask.bagHolds', { bag, ml }) : say('ask.chooseOne')
  return [{ field: 'emptyings', message }]
}

/** A converted volume is shown back as a question; so is the unit itself, as long as a drain is new to the person. */
function unitChecks(answers: DrainAnswers, drain: CheckInDrain, ml: number, say: Say): Check[] {
  const unit = answers.unit ?? 'mL'
  const amount = amountOf(answers.volume ?? '', unit, say)
  if (unit !== 'mL')
    return [
      {
        field: 'volume',
        topic: 'converted',
        again: `${unit} ${ml}`,
        message: say('ask.converted', { amount, ml }),
      },
    ]
  if (drain.readings >= UNIT_SURE_AFTER || ml === 0) return []
  return [
    {
      field: 'volume',
      topic: 'unit',
      again: unit,
      message: say('ask.unit', { number: ml }),
      yes: say('ask.yesMl'),
    },
  ]
}

function unusual(answers: DrainAnswers, drain: CheckInDrain, ml: number, say: Say): Check[] {
  const asked = (message: string): Check[] => [{ field: 'volume', again: `${ml}`, message }]
  const bag = drain.bagCapacityMl
  if (ml > UNCONFIRMED_MAX_ML) return asked(say('ask.volumeLarge', { ml }))
  if (bag !== null && ml > 2 * bag && emptyingsOf(answers, drain) === 'one')
    return asked(say('ask.overBag', { ml, bag }))
  const measured = drain.recent.flatMap(({ volumeMl }) => volumeMl ?? [])
  const last = measured.at(-1)
  if (last && ml > 0 && isOunceFactor(Math.max(last / ml, ml / last)))
    return asked(say('ask.ounces', { last, ml }))
  if (measured.length < USUAL_FROM || ml === 0) return []
  const usual = medianOf(measured)
  if (Math.abs(ml - usual) < UNUSUAL_ML) return []
  if (ml > UNUSUAL_FACTOR * usual) return asked(say('ask.muchMore', { usual, ml }))
  return ml * UNUSUAL_FACTOR < usual ? asked(say('ask.muchLess', { usual, ml })) : []
}

const isOunceFactor = (factor: number) => factor >= OUNCES_LOW && factor <= OUNCES_HIGH

/** The middle one of what was written, so that one slip does not move it; of two middle ones the lower. */
function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[(sorted.length - 1) >> 1] ?? 0
}
