import type { CheckInDrain, CheckInView } from '@/lib/domain/check-in.ts'
import type { Say } from '../words/catalogue.ts'
import { localeOf } from '../words/locale.ts'
import {
  doneOptions,
  easeOptions,
  emptyingOptions,
  foundOptions,
  generalOptions,
  looksOptions,
  outputOptions,
  positionOptions,
  skinOptions,
  wordsOf,
  yesNoOptions,
} from '../words/options.ts'
import type { Draft, DrainAnswers, When } from './draft.ts'
import { emptyingsOf } from './emptyings.ts'
import { parseNumber, temperatureInC, volumeInMl } from './numbers.ts'
import { bothScales, shownBack } from './shown-back.ts'
import type { Step } from './steps.ts'
import { instantOf, sayWhen } from './times.ts'

/** A question and its answer in words; null where it was left open. */
export type Line = { question: string; answer: string | null }

const line = (question: string, answer: string | null | undefined): Line => ({
  question,
  answer: answer ?? null,
})

/** The questions of one screen with the answers so far. */
export function linesOf(step: Step, draft: Draft, view: CheckInView, now: Date, say: Say): Line[] {
  const drain = view.drains.find((one) => one.id === step.drain)
  const answers = draft.drains[step.drain ?? ''] ?? {}
  const when = (picked: When | undefined, fixed: string | undefined) => {
    const instant = instantOf(picked, fixed)
    return instant ? sayWhen(instant, now, say) : null
  }
  switch (step.kind) {
    case 'feel':
      return [line(say('q.general'), generalWords(draft, say))]
    case 'body':
      return bodyLines(draft, say)
    case 'tube':
      return tubeLines(answers, drain?.capped ?? false, say)
    case 'output':
      return drain ? outputLines(answers, drain, when, say) : []
    case 'flush':
      return flushLines(answers, when, say)
    default:
      return dressingLines(answers, when, say)
  }
}

type SayWhen = (picked: When | undefined, fixed: string | undefined) => string | null

function generalWords(draft: Draft, say: Say): string | null {
  const chosen = draft.general.flatMap((symptom) => wordsOf(generalOptions(say), symptom) ?? [])
  if (chosen.length > 0) return new Intl.ListFormat(localeOf(say.language), { type: 'unit' }).format(chosen)
  return draft.generalNone ? say('noneOfThese') : null
}

function bodyLines(draft: Draft, say: Say): Line[] {
  const celsius = temperatureInC(draft.temperature)
  const temperature = draft.noThermometer
    ? say('noThermometer')
    : celsius === null
      ? null
      : bothScales(celsius, say)
  return [
    line(say('q.temperature'), temperature),
    line(say('q.chills'), wordsOf(yesNoOptions(say), draft.chills)),
    line(say('q.pain'), draft.pain === undefined ? null : say('ofTen', { pain: draft.pain })),
  ]
}

function tubeLines(answers: DrainAnswers, capped: boolean, say: Say): Line[] {
  const position = line(say('q.position'), wordsOf(positionOptions(say), answers.position))
  if (answers.position === 'out') return [position]
  const leak = line(say('q.leak'), wordsOf(yesNoOptions(say), answers.leak))
  const draining = line(say('q.draining'), wordsOf(yesNoOptions(say), answers.draining))
  return capped ? [position, leak] : [position, leak, draining]
}

function outputLines(answers: DrainAnswers, drain: CheckInDrain, when: SayWhen, say: Say): Line[] {
  const unit = answers.unit ?? 'mL'
  const ml = volumeInMl(answers.volume, unit)
  const measured = answers.output === 'measured'
  const amount = ml === null ? null : shownBack(answers.volume ?? '', unit, ml, say)
  const lines = [line(say('q.output'), measured ? amount : wordsOf(outputOptions(say), answers.output))]
  if (measured)
    lines.push(line(say('q.emptyings'), wordsOf(emptyingOptions(say), emptyingsOf(answers, drain))))
  const emptied = answers.output && answers.output !== 'not-emptied'
  if (emptied) lines.push(line(say('q.outputWhen'), when(answers.outputWhen, answers.outputNow)))
  if (emptied && answers.output !== 'nothing')
    lines.push(line(say('q.looks'), wordsOf(looksOptions(say, drain.kind, answers.looks), answers.looks)))
  if (answers.unmeasured)
    lines.push(
      line(say('q.unmeasuredWhen'), answers.unmeasuredWhen ? when(answers.unmeasuredWhen, undefined) : null),
    )
  return lines
}

function flushLines(answers: DrainAnswers, when: SayWhen, say: Say): Line[] {
  const flushed = line(say('q.flushed'), wordsOf(doneOptions(say), answers.flushed))
  if (answers.flushed !== 'yes') return [flushed]
  const ml = parseNumber(answers.flushVolume)
  return [
    flushed,
    line(say('q.flushEase'), wordsOf(easeOptions(say), answers.flushEase)),
    line(say('q.flushVolume'), ml === null ? null : say('milliliters', { ml })),
    line(say('q.flushWhen'), when(answers.flushWhen, answers.flushNow)),
  ]
}

function dressingLines(answers: DrainAnswers, when: SayWhen, say: Say): Line[] {
  const lines = [
    line(say('q.found'), wordsOf(foundOptions(say), answers.found)),
    line(say('q.skin'), wordsOf(skinOptions(say), answers.skin)),
    line(say('q.dressingChanged'), wordsOf(doneOptions(say), answers.dressingChanged)),
  ]
  if (answers.dressingChanged !== 'yes') return lines
  return [...lines, line(say('q.dressingWhen'), when(answers.dressingWhen, answers.dressingNow))]
}
