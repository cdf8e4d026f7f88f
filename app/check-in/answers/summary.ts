import type { CheckInDrain, CheckInView } from '@/lib/domain/check-in.ts'
import {
  doneOptions,
  easeOptions,
  foundOptions,
  generalOptions,
  looksOptions,
  noneOfThese,
  outputOptions,
  positionOptions,
  questions,
  skinOptions,
  wordsOf,
  yesNo,
} from '../words/questions.ts'
import { say } from '../words/say.ts'
import type { Draft, DrainAnswers } from './draft.ts'
import { bothScales, parseNumber, temperatureInC, volumeInMl } from './numbers.ts'
import { type Step, stepsOf } from './steps.ts'
import { instantOf, sayWhen } from './times.ts'
import { titleOf } from './title.ts'

/** One screen's answers in the words in which they were given, to be read once more before sending. */
export type Group = { step: string; title: string; lines: { question: string; answer: string | null }[] }

export function summaryOf(draft: Draft, view: CheckInView, now: Date): Group[] {
  return stepsOf(view, draft)
    .filter((step) => step.kind !== 'check')
    .map((step) => ({ step: step.id, title: titleOf(step, view), lines: linesOf(step, draft, view, now) }))
}

type Line = Group['lines'][number]
const line = (question: string, answer: string | null | undefined): Line => ({
  question,
  answer: answer ?? null,
})

function linesOf(step: Step, draft: Draft, view: CheckInView, now: Date): Line[] {
  const drain = view.drains.find((one) => one.id === step.drain)
  const answers = draft.drains[step.drain ?? ''] ?? {}
  switch (step.kind) {
    case 'feel': {
      const chosen = draft.general.map((symptom) => wordsOf(generalOptions, symptom)).join(', ')
      return [line(questions.general, chosen || (draft.generalNone ? noneOfThese : null))]
    }
    case 'body':
      return bodyLines(draft)
    case 'tube':
      return tubeLines(answers, drain?.capped ?? false)
    case 'output':
      return drain ? outputLines(answers, drain, now) : []
    case 'flush':
      return flushLines(answers, now)
    default:
      return dressingLines(answers, now)
  }
}

function bodyLines(draft: Draft): Line[] {
  const celsius = temperatureInC(draft.temperature)
  const temperature = draft.noThermometer
    ? questions.noThermometer
    : celsius === null
      ? null
      : bothScales(celsius)
  return [
    line(questions.temperature, temperature),
    line(questions.chills, wordsOf(yesNo, draft.chills)),
    line(questions.pain, draft.pain === undefined ? null : say.ofTen(draft.pain)),
  ]
}

function tubeLines(answers: DrainAnswers, capped: boolean): Line[] {
  const position = line(questions.position, wordsOf(positionOptions, answers.position))
  if (answers.position === 'out') return [position]
  const leak = line(questions.leak, wordsOf(yesNo, answers.leak))
  return capped
    ? [position, leak]
    : [position, leak, line(questions.draining, wordsOf(yesNo, answers.draining))]
}

function outputLines(answers: DrainAnswers, drain: CheckInDrain, now: Date): Line[] {
  const ml = volumeInMl(answers.volume, answers.unit ?? 'mL')
  const measured = answers.output === 'measured'
  const amount = measured
    ? ml === null
      ? null
      : say.shownBack(answers.volume ?? '', answers.unit ?? 'mL', ml)
    : null
  const output = line(questions.output, measured ? amount : wordsOf(outputOptions, answers.output))
  if (!answers.output || answers.output === 'not-emptied') return [output]
  const when = line(questions.outputWhen, whenWords(instantOf(answers.outputWhen, answers.outputNow), now))
  if (answers.output === 'nothing') return [output, when]
  return [output, when, line(questions.looks, wordsOf(looksOptions(drain.kind), answers.looks))]
}

function flushLines(answers: DrainAnswers, now: Date): Line[] {
  const flushed = line(questions.flushed, wordsOf(doneOptions, answers.flushed))
  if (answers.flushed !== 'yes') return [flushed]
  const ml = parseNumber(answers.flushVolume)
  return [
    flushed,
    line(questions.flushVolume, ml === null ? null : `${ml} mL`),
    line(questions.flushEase, wordsOf(easeOptions, answers.flushEase)),
    line(questions.flushWhen, whenWords(instantOf(answers.flushWhen, answers.flushNow), now)),
  ]
}

function dressingLines(answers: DrainAnswers, now: Date): Line[] {
  const lines = [
    line(questions.found, wordsOf(foundOptions, answers.found)),
    line(questions.skin, wordsOf(skinOptions, answers.skin)),
    line(questions.dressingChanged, wordsOf(doneOptions, answers.dressingChanged)),
  ]
  if (answers.dressingChanged !== 'yes') return lines
  return [
    ...lines,
    line(questions.dressingWhen, whenWords(instantOf(answers.dressingWhen, answers.dressingNow), now)),
  ]
}

const whenWords = (instant: string | null, now: Date) => (instant ? sayWhen(instant, now) : null)
