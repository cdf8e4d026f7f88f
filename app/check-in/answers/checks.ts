import type { CheckInDrain, CheckInView } from '@/lib/domain/check-in.ts'
import { NOTE_MAX, UNCONFIRMED_MAX_ML, VOLUME_MAX_ML } from '@/lib/domain/limits.ts'
import { ask } from '../words/ask.ts'
import type { Draft, When } from './draft.ts'
import { bothScales, parseNumber, temperatureInC, volumeInMl } from './numbers.ts'
import type { Step } from './steps.ts'
import { instantOf } from './times.ts'

/**
 * Something to look at before going on. `again` holds the value when it is only unusual: said once more,
 * it is taken. The rest is missing or cannot be.
 */
export type Check = { field: string; message: string; again?: string }

/** Ounces written as millilitres, or the other way: a factor of 29.6, give or take. */
const OUNCES_LOW = 24
const OUNCES_HIGH = 36
/** Body temperatures that are possible and rare, in °C. */
const RARE_LOW_C = 35
const RARE_HIGH_C = 41

/** What to look at on one screen, in the order of its questions. Empty when the person may go on. */
export function checksOf(step: Step, draft: Draft, view: CheckInView, now: Date): Check[] {
  const found = all(step, draft, view, now)
  return found.filter((check) => check.again === undefined || draft.sure[check.field] !== check.again)
}

function all(step: Step, draft: Draft, view: CheckInView, now: Date): Check[] {
  if (step.kind === 'feel') return missing('general', draft.general.length > 0 || draft.generalNone)
  if (step.kind === 'body') return bodyChecks(draft)
  if (step.kind === 'check')
    return (draft.note ?? '').length > NOTE_MAX ? [{ field: 'note', message: ask.noteTooLong }] : []
  const drain = view.drains.find((one) => one.id === step.drain)
  if (!drain) return []
  const answers = draft.drains[drain.id] ?? {}
  switch (step.kind) {
    case 'tube':
      return [
        ...missing('position', answers.position),
        ...(answers.position === 'out' ? [] : missing('leak', answers.leak)),
        ...(answers.position === 'out' || drain.capped ? [] : missing('draining', answers.draining)),
      ].map(of(drain))
    case 'output':
      return outputChecks(draft, drain, now).map(of(drain))
    case 'flush':
      return flushChecks(draft, drain, now).map(of(drain))
    case 'dressing':
      return [
        ...missing('dressingChanged', answers.dressingChanged),
        ...(answers.dressingChanged === 'yes' ? whenChecks('dressingWhen', answers.dressingWhen, now) : []),
      ].map(of(drain))
  }
}

const of =
  (drain: CheckInDrain) =>
  (check: Check): Check => ({ ...check, field: `${check.field}:${drain.id}` })

const missing = (field: string, answer: unknown): Check[] =>
  answer === undefined || answer === false ? [{ field, message: ask.chooseOne }] : []

function outputChecks(draft: Draft, drain: CheckInDrain, now: Date): Check[] {
  const answers = draft.drains[drain.id] ?? {}
  if (!answers.output) return missing('output', undefined)
  if (answers.output === 'not-emptied') return []
  const volume = answers.output === 'measured' ? volumeChecks(draft, drain) : []
  return [...volume, ...whenChecks('outputWhen', answers.outputWhen, now)]
}

function volumeChecks(draft: Draft, drain: CheckInDrain): Check[] {
  const answers = draft.drains[drain.id] ?? {}
  const field = 'volume'
  const ml = volumeInMl(answers.volume, answers.unit ?? 'mL')
  if (ml === null) return [{ field, message: ask.volumeNumber }]
  if (ml > VOLUME_MAX_ML) return [{ field, message: ask.volumeTooLarge }]
  const again = `${ml}`
  const bag = drain.bagCapacityMl
  if (bag !== null && ml >= bag && !answers.emptyings)
    return [{ field: 'emptyings', message: ask.bagHolds(bag, ml) }]
  if (ml > UNCONFIRMED_MAX_ML) return [{ field, again, message: ask.volumeLarge(ml) }]
  if (bag !== null && ml > 2 * bag && answers.emptyings === 'one')
    return [{ field, again, message: ask.overBag(bag, ml) }]
  const last = drain.recent.findLast((reading) => reading.volumeMl !== null)?.volumeMl
  if (last && ml > 0 && isOunceFactor(Math.max(last / ml, ml / last)))
    return [{ field, again, message: ask.ounces(last, ml) }]
  return []
}

const isOunceFactor = (factor: number) => factor >= OUNCES_LOW && factor <= OUNCES_HIGH

function flushChecks(draft: Draft, drain: CheckInDrain, now: Date): Check[] {
  const answers = draft.drains[drain.id] ?? {}
  if (answers.flushed !== 'yes') return missing('flushed', answers.flushed)
  const field = 'flushVolume'
  const ml = parseNumber(answers.flushVolume)
  const ordered = drain.flush?.volumeMl ?? 0
  const volume: Check[] =
    ml === null || ml > VOLUME_MAX_ML
      ? [{ field, message: ask.flushNumber }]
      : ordered > 0 && ml > 2 * ordered
        ? [{ field, again: `${ml}`, message: ask.flushLarge(ml, ordered) }]
        : []
  return [
    ...(answers.flushEase === 'blocked' && !answers.flushVolume ? [] : volume),
    ...missing('flushEase', answers.flushEase),
    ...whenChecks('flushWhen', answers.flushWhen, now),
  ]
}

function bodyChecks(draft: Draft): Check[] {
  return [...temperatureChecks(draft), ...missing('chills', draft.chills), ...missing('pain', draft.pain)]
}

function temperatureChecks(draft: Draft): Check[] {
  const field = 'temperature'
  if (draft.noThermometer) return []
  if (!draft.temperature?.trim()) return [{ field, message: ask.temperatureMissing }]
  const celsius = temperatureInC(draft.temperature)
  if (celsius === null) return [{ field, message: ask.temperatureNumber }]
  const rare = celsius < RARE_LOW_C || celsius > RARE_HIGH_C
  return rare ? [{ field, again: `${celsius}`, message: ask.temperatureRare(bothScales(celsius)) }] : []
}

function whenChecks(field: string, when: When | undefined, now: Date): Check[] {
  if (!when || when.kind === 'now') return []
  const at = instantOf(when, undefined)
  if (!at) return [{ field, message: ask.timeMissing }]
  return Date.parse(at) > now.getTime() ? [{ field, message: ask.timeAhead }] : []
}
