import {
  type AnswerKind,
  CALL_QUESTION_MAX,
  CALL_QUESTIONS_MAX,
  CALL_SENTENCE_MAX,
  CALL_SENTENCES_MAX,
  type CallTextBody,
} from '@/lib/domain/call-text.ts'

/** What each kind of answer is called where a question is written. */
export const answerLabels: Readonly<Record<AnswerKind, string>> = {
  words: 'a few words',
  'yes-no': 'yes or no',
  temperature: 'temperature',
  chills: 'chills, yes or no',
  pain: 'pain, 0 to 10',
  general: 'how they are, from a list',
  leak: 'leak, yes or no',
  draining: 'draining, yes or no',
  position: 'where the tube is',
  skin: 'skin at the tube',
  volume: 'mL in the bag',
}

/** The texts of a finding while they are written: sentences as lines of one field. `key` tells two lines apart. */
export type CallTextDraft = {
  ask: { key: number; question: string; answer: AnswerKind }[]
  advise: string
  escalate: string
}

export const draftOf = ({ ask, advise, escalate }: CallTextBody): CallTextDraft => ({
  ask: ask.map(({ question, answer }, key) => ({ key, question, answer })),
  advise: advise.join('\n'),
  escalate: escalate.join('\n'),
})

const linesOf = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')

/** The texts as the door takes them; a question that was left empty is none. */
export const toBody = ({ ask, advise, escalate }: CallTextDraft): CallTextBody => ({
  ask: ask
    .map(({ question, answer }) => ({ question: question.trim(), answer }))
    .filter(({ question }) => question !== ''),
  advise: linesOf(advise),
  escalate: linesOf(escalate),
})

export type CallTextFaults = Partial<Record<keyof CallTextDraft, string>>

/** What is still wrong with them. */
export function draftFaults(draft: CallTextDraft): CallTextFaults {
  const { ask, advise, escalate } = toBody(draft)
  const questions = ask.map(({ question }) => question)
  return {
    ...(questions.length === 0 ? { ask: 'Write at least one question.' } : {}),
    ...(questions.length > CALL_QUESTIONS_MAX ? { ask: `At most ${CALL_QUESTIONS_MAX} questions.` } : {}),
    ...(questions.some((text) => text.length > CALL_QUESTION_MAX)
      ? { ask: `At most ${CALL_QUESTION_MAX} characters each.` }
      : {}),
    ...sentenceFault('advise', advise),
    ...sentenceFault('escalate', escalate),
  }
}

function sentenceFault(part: 'advise' | 'escalate', sentences: readonly string[]): CallTextFaults {
  if (sentences.length > CALL_SENTENCES_MAX) return { [part]: `At most ${CALL_SENTENCES_MAX} sentences.` }
  return sentences.some((text) => text.length > CALL_SENTENCE_MAX)
    ? { [part]: `At most ${CALL_SENTENCE_MAX} characters each.` }
    : {}
}
