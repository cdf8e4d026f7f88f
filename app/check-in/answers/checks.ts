import type { CheckInDrain, CheckInView } from '@/lib/domain/check-in.ts'
import { NOTE_MAX, VOLUME_MAX_ML } from '@/lib/domain/limits.ts'
import type { Say } from '../words/catalogue.ts'
import type { Draft, When } from './draft.ts'
import { parseNumber, temperatureInC } from './numbers.ts'
import { bothScales } from './shown-back.ts'
import type { Step } from './steps.ts'
import { instantOf } from './times.ts'
import { volumeChecks } from './volume-checks.ts'

/**
 * Something to look at before going on. `again` holds the value when it is only unusual: said once more,
 * it is taken. The rest is missing or cannot be. One question may be asked about several things: `topic`
 * tells them apart, and `yes` is how this one is said again.
 */
export type Check = { field: string; message: string; again?: string; topic?: string; yes?: string }

/** Under what an unusual value that was said again is remembered. */
export const topicOf = ({ field, topic }: Check): string => (topic ? `${field}/${topic}` : field)

/** Body temperatures that are possible and rare, in °C. */
const RARE_LOW_C = 35
const RARE_HIGH_C = 41

/** What to look at on one screen, in the order of its questions. Empty when the person may go on. */
export function checksOf(step: Step, draft: Draft, view: CheckInView, now: Date, say: Say): Check[] {
  const found = all(step, draft, view, now, say)
  return found.filter((check) => check.again === undefined || draft.sure[topicOf(check)] !== check.again)
}

function all(step: Step, draft: Draft, view: CheckInView, now: Date, say: Say): Check[] {
  if (step.kind === 'feel') return missing(say, 'general', draft.general.length > 0 || draft.generalNone)
  if (step.kind === 'body')
    return [
      ...temperatureChecks(draft, say),
      ...missing(say, 'chills', draft.chills),
      ...missing(say, 'pain', draft.pain),
    ]
  if (step.kind === 'check')
    return (draft.note ?? '').length > NOTE_MAX ? [{ field: 'note', message: say('ask.noteTooLong') }] : []
  const drain = view.drains.find((one) => one.id === step.drain)
  if (!drain) return []
  const answers = draft.drains[drain.id] ?? {}
  switch (step.kind) {
    case 'tube':
      return [
        ...missing(say, 'position', answers.position),
        ...(answers.position === 'out' ? [] : missing(say, 'leak', answers.leak)),
        ...(answers.position === 'out' || drain.capped ? [] : missing(say, 'draining', answers.draining)),
      ].map(of(drain))
    case 'output':
      return outputChecks(draft, drain, now, say).map(of(drain))
    case 'flush':
      return flushChecks(draft, drain, now, say).map(of(drain))
    case 'dressing':
      return [
        ...missing(say, 'dressingChanged', answers.dressingChanged),
        ...(answers.dressingChanged === 'yes'
          ? whenChecks(say, 'dressingWhen', answers.dressingWhen, now)
          : []),
      ].map(of(drain))
  }
}

const of =
  (drain: CheckInDrain) =>
  (check: Check): Check => ({ ...check, field: `${check.field}:${drain.id}` })

const missing = (say: Say, field: string, answer: unknown): Check[] =>
  answer === undefined || answer === false ? [{ field, message: say('ask.chooseOne') }] : []

function outputChecks(draft: Draft, drain: CheckInDrain, now: Date, say: Say): Check[] {
  const answers = draft.drains[drain.id] ?? {}
  if (!answers.output) return missing(say, 'output', undefined)
  const emptied = answers.output !== 'not-emptied'
  return [
    ...(answers.output === 'measured' ? volumeChecks(answers, drain, say) : []),
    ...(emptied ? whenChecks(say, 'outputWhen', answers.outputWhen, now) : []),
    ...(answers.unmeasured ? whenChecks(say, 'unmeasuredWhen', answers.unmeasuredWhen, now) : []),
  ]
}

function flushChecks(draft: Draft, drain: CheckInDrain, now: Date, say: Say): Check[] {
  const answers = draft.drains[drain.id] ?? {}
  if (answers.flushed !== 'yes') return missing(say, 'flushed', answers.flushed)
  const field = 'flushVolume'
  const ml = parseNumber(answers.flushVolume)
  const ordered = drain.flush?.volumeMl ?? 0
  const volume: Check[] =
    ml === null || ml > VOLUME_MAX_ML
      ? [{ field, message: say('ask.flushNumber') }]
      : ordered > 0 && ml > 2 * ordered
        ? [{ field, again: `${ml}`, message: say('ask.flushLarge', { ml, ordered }) }]
        : []
  return [
    ...(answers.flushEase === 'blocked' && !answers.flushVolume ? [] : volume),
    ...missing(say, 'flushEase', answers.flushEase),
    ...whenChecks(say, 'flushWhen', answers.flushWhen, now),
  ]
}

function temperatureChecks(draft: Draft, say: Say): Check[] {
  const field = 'temperature'
  if (draft.noThermometer) return []
  if (!draft.temperature?.trim()) return [{ field, message: say('ask.temperatureMissing') }]
  const celsius = temperatureInC(draft.temperature)
  if (celsius === null) return [{ field, message: say('ask.temperatureNumber') }]
  if (celsius >= RARE_LOW_C && celsius <= RARE_HIGH_C) return []
  return [
    { field, again: `${celsius}`, message: say('ask.temperatureRare', { both: bothScales(celsius, say) }) },
  ]
}

function whenChecks(say: Say, field: string, when: When | undefined, now: Date): Check[] {
  if (!when || when.kind === 'now') return []
  const at = instantOf(when, undefined)
  if (!at) return [{ field, message: say('ask.timeMissing') }]
  return Date.parse(at) > now.getTime() ? [{ field, message: say('ask.timeAhead') }] : []
}
