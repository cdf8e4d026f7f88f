import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Say } from '../words/catalogue.ts'
import { carriedLines } from './carried-lines.ts'
import type { Draft } from './draft.ts'
import { originalDraft } from './from-report.ts'
import { type Line, linesOf } from './lines.ts'
import { stepsOf } from './steps.ts'
import { titleOf } from './title.ts'

/** An answer beside what it takes the place of, where a report is corrected and the answer is another one. */
export type SummaryLine = Line & { was?: string | null }

/** One screen's answers in the words in which they were given, to be read once more before sending. */
export type Group = { step: string; title: string; lines: SummaryLine[] }

export function summaryOf(draft: Draft, view: CheckInView, now: Date, say: Say): Group[] {
  const original = originalDraft(draft, view)
  return stepsOf(view, draft)
    .filter((step) => step.kind !== 'check')
    .map((step) => {
      const before = original ? linesOf(step, original, view, now, say) : null
      return {
        step: step.id,
        title: titleOf(step, view, say),
        lines: linesOf(step, draft, view, now, say).map((line) => (before ? beside(line, before) : line)),
      }
    })
}

function beside(line: Line, before: readonly Line[]): SummaryLine {
  const was = before.find(({ question }) => question === line.question)?.answer ?? null
  return was === line.answer ? line : { ...line, was }
}

/** What the form has no place for and sends as it was, in words; empty where a report is new. */
export const carriedOf = (draft: Draft, view: CheckInView, now: Date, say: Say): string[] =>
  draft.carried ? carriedLines(draft.carried, view, now, say) : []
