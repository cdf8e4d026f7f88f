import { type CallAnswer, openAnswers } from '@/lib/client/call-answers.ts'
import type { SheetQuestion } from '@/lib/domain/call-sheet-ask.ts'
import type { AskedAnswer } from '@/lib/domain/callback.ts'
import { generalLabels, positionLabels, skinLabels } from '@/lib/domain/labels.ts'
import { VOLUME_MAX_ML } from '@/lib/domain/limits.ts'
import { fahrenheitToCelsius } from '@/lib/domain/units.ts'
import { General, Position, Skin } from '@/lib/domain/words.ts'
import { isWithin, numberOf } from '../parts/number-text.ts'
import type { ReportDraft } from './report-draft.ts'

/** 'None of these', said of the general symptoms. */
export const NONE = 'none'
/** From here on a temperature is meant in °F: no body is that warm in °C. */
const FAHRENHEIT_FROM = 80

/** The scale of a temperature as it was typed; the two do not overlap in people. */
export const scaleOf = (value: string): 'C' | 'F' => ((numberOf(value) ?? 0) >= FAHRENHEIT_FROM ? 'F' : 'C')

export const generalOf = (value: string): General[] =>
  value.split(' ').flatMap((word) => {
    const read = General.safeParse(word)
    return read.success ? [read.data] : []
  })

/** An answer in words, as it is kept with the call. */
export function answerText({ answer }: Pick<SheetQuestion, 'answer'>, value: string): string {
  const said = value.trim()
  if (said === '') return ''
  switch (answer) {
    case 'temperature':
      return `${said} °${scaleOf(said)}`
    case 'pain':
      return `${said} of 10`
    case 'volume':
      return `${said} mL`
    case 'general':
      return said === NONE
        ? 'none of these'
        : generalOf(said)
            .map((word) => generalLabels[word])
            .join(', ')
    case 'position':
      return wordOf(Position.safeParse(said).data, positionLabels) ?? said
    case 'skin':
      return wordOf(Skin.safeParse(said).data, skinLabels) ?? said
    default:
      return said
  }
}

const wordOf = <T extends string>(word: T | undefined, labels: Readonly<Record<T, string>>) =>
  word === undefined ? undefined : labels[word]

/** What is wrong with an answer; undefined where it can stand. */
export function answerFault({ answer }: Pick<SheetQuestion, 'answer'>, value: string): string | undefined {
  if (answer === 'pain' && !isWithin(value, 0, 10)) return 'From 0 to 10.'
  if (answer === 'volume' && !isWithin(value, 0, VOLUME_MAX_ML)) return `From 0 to ${VOLUME_MAX_ML} mL.`
  if (answer !== 'temperature') return undefined
  const number = numberOf(value)
  const celsius = number !== null && scaleOf(value) === 'F' ? fahrenheitToCelsius(number) : number
  return celsius === null || (celsius >= 30 && celsius <= 45) ? undefined : 'From 30 to 45 °C (86 to 113 °F).'
}

/** What was asked and is in no call yet, as a call keeps it. */
export const askedOf = (answers: readonly CallAnswer[]): AskedAnswer[] =>
  openAnswers(answers).forCall.map(({ question, value }) => ({
    code: question.code,
    drain: question.drain,
    question: question.question,
    answer: answerText(question, value),
  }))

/** What they told of readings and symptoms that is in no report yet, each in a few words. */
export const toldOf = (answers: readonly CallAnswer[]): string[] =>
  openAnswers(answers).forReport.map(({ question, value }) =>
    [question.who, `${toldWords[question.answer]} ${answerText(question, value)}`].filter(Boolean).join(': '),
  )

const toldWords: Readonly<Record<SheetQuestion['answer'], string>> = {
  words: '',
  'yes-no': '',
  temperature: 'temperature',
  chills: 'chills',
  pain: 'pain',
  general: 'general:',
  leak: 'leak',
  draining: 'draining',
  position: 'tube',
  skin: 'skin',
  volume: 'in the bag',
}

/** The form of a report by phone with what was told filled in. It is read once more before it is stored. */
export function withTold(draft: ReportDraft, answers: readonly CallAnswer[]): ReportDraft {
  return openAnswers(answers).forReport.reduce(filled, draft)
}

function filled(draft: ReportDraft, { question, value }: CallAnswer): ReportDraft {
  const { answer, drain } = question
  const said = value.trim()
  const yes = said === 'yes' ? ('yes' as const) : ('no' as const)
  /** The first line of that drain, which the form opens with. */
  const at = <T extends { drain: string }>(list: readonly T[], part: Partial<T>): T[] => {
    const first = list.findIndex((one) => one.drain === drain)
    return list.map((one, i) => (i === first ? { ...one, ...part } : one))
  }
  switch (answer) {
    case 'temperature':
      return { ...draft, temperature: said, unit: scaleOf(said) }
    case 'chills':
      return { ...draft, chills: yes }
    case 'pain':
      return { ...draft, pain: said }
    case 'general':
      return said === NONE ? { ...draft, noGeneral: true } : { ...draft, general: generalOf(said) }
    case 'leak':
      return { ...draft, sites: at(draft.sites, { leak: yes }) }
    case 'draining':
      return { ...draft, sites: at(draft.sites, { draining: yes }) }
    case 'position':
      return { ...draft, sites: at(draft.sites, { position: Position.safeParse(said).data ?? '' }) }
    case 'skin':
      return { ...draft, dressings: at(draft.dressings, { skin: Skin.safeParse(said).data ?? '' }) }
    case 'volume':
      return { ...draft, readings: at(draft.readings, { volume: said }) }
    default:
      return draft
  }
}
