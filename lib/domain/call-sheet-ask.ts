import { notReached } from './call-next.ts'
import { inPlace, nameOf } from './call-sheet-drains.ts'
import { type Line, tie } from './call-sheet-line.ts'
import type { AnswerKind } from './call-text.ts'
import { callTextOf } from './call-text-standard.ts'
import type { Flag } from './flag.ts'
import type { PatientPage } from './patient-page.ts'
import { notSaidAlready } from './said-already.ts'
import type { FindingCode } from './words.ts'

/** One question of a call: for which finding, and of which drain where the answer is about one. */
export type SheetQuestion = {
  /** The same question is asked once. */
  key: string
  code: FindingCode
  drain: string | null
  /** The drain's name, where there are several. */
  who: string | null
  question: string
  answer: AnswerKind
}

export type SheetRequest = {
  ask: SheetQuestion[]
  /** Further questions, for whoever has the time. */
  askMore: SheetQuestion[]
  advise: Line[]
  escalate: Line[]
  /** Findings whose texts are the shipped ones, which this clinic has not made its own. */
  standard: FindingCode[]
}

/** Most questions, and most sentences of each kind, that stand in sight: a call is short. */
const MOST_QUESTIONS = 6
const MOST_SENTENCES = 3

const ofDrain: ReadonlySet<AnswerKind> = new Set(['leak', 'draining', 'position', 'skin', 'volume'])

/** What to ask, to advise, and when to call whom, for what stands, the most pressing first; each thing once. */
export function requestOf(page: PatientPage, standing: readonly Flag[]): SheetRequest {
  const lying = inPlace(page)
  const [only] = lying.length === 1 ? lying : []
  const questions = new Map<string, SheetQuestion>()
  for (const { code, drain } of standing)
    for (const { question, answer } of callTextOf(page.callTexts, code).ask) {
      const about = ofDrain.has(answer) ? (drain ?? only?.id ?? null) : null
      const key = `${about ?? ''} ${question}`
      if (questions.has(key)) continue
      const who = about !== null && only === undefined ? nameOf(page, about) : null
      // An answer about a drain that is not known which could stand in no report.
      questions.set(key, {
        key,
        code,
        drain: about,
        who,
        question,
        answer: ofDrain.has(answer) && about === null ? 'words' : answer,
      })
    }
  const said = notSaidAlready(standing)
  const all = [...questions.values()]
  const sentences = (part: 'advise' | 'escalate') =>
    [...new Set(said.flatMap(({ code }) => callTextOf(page.callTexts, code)[part]))].slice(0, MOST_SENTENCES)
  const unreached = notReached(said)
  const plain = (text: string): Line => [text]
  return {
    ask: all.slice(0, MOST_QUESTIONS),
    askMore: all.slice(MOST_QUESTIONS),
    advise: sentences('advise').map(plain),
    escalate: [
      ...nextTry(page),
      ...sentences('escalate').map(plain),
      ...(unreached === null ? [] : [[unreached]]),
    ],
    standard: [...new Set(said.map(({ code }) => code))].filter((code) => !page.callTexts[code]),
  }
}

/** What the clinic's rule says is next, after tries that reached nobody. */
const nextTry = ({ nextTry, callbacks }: PatientPage): Line[] =>
  nextTry === null
    ? []
    : [tie(`Not reached so far. ${nextTry.says}`, { to: 'call', id: callbacks[0]?.id ?? '' })]
