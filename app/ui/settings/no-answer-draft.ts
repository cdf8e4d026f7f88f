import {
  type NoAnswer,
  type NoAnswerRule,
  type NoAnswerStep,
  urgenciesOfRule,
} from '@/lib/domain/no-answer.ts'

/** A rule as the form holds it: texts, as they are typed, and a place for one step more than there are. */
export type RuleDraft = { tries: string; everyMinutes: string; next: (NoAnswerStep | '')[] }
export type NoAnswerDraft = Record<keyof NoAnswer, RuleDraft>

const LEAST_PLACES = 4

export const draftOfRules = (rules: NoAnswer): NoAnswerDraft => {
  const of = ({ tries, everyMinutes, next }: NoAnswerRule): RuleDraft => ({
    tries: String(tries),
    everyMinutes: String(everyMinutes),
    next: Array.from({ length: Math.max(LEAST_PLACES, next.length) }, (_, i) => next[i] ?? ''),
  })
  return {
    'at-once': of(rules['at-once']),
    'within-1h': of(rules['within-1h']),
    'within-24h': of(rules['within-24h']),
    'within-3d': of(rules['within-3d']),
  }
}

/** What is sent: what is no number goes as it is, for the door to name; empty places are left out. */
export const toRules = (draft: NoAnswerDraft): unknown =>
  Object.fromEntries(
    urgenciesOfRule.map((urgency) => {
      const { tries, everyMinutes, next } = draft[urgency]
      return [
        urgency,
        {
          tries: numberOf(tries),
          everyMinutes: numberOf(everyMinutes),
          next: next.filter((step) => step !== ''),
        },
      ]
    }),
  )

const numberOf = (text: string): number | string => (/^\s*\d+\s*$/.test(text) ? Number(text) : text)
