import { useMemo, useSyncExternalStore } from 'react'
import type { SheetQuestion } from '../domain/call-sheet-ask.ts'
import { tellsReport } from '../domain/call-text.ts'
import { browserNow } from './browser-clock.ts'

/**
 * One question of the call sheet as it was ticked and answered, and when (UTC, by this device). `inCall`, `inReport`:
 * it is stored with a call, with a report; whoever changes the answer has it stored again.
 */
export type CallAnswer = {
  question: SheetQuestion
  asked: boolean
  value: string
  at: string
  inCall: boolean
  inReport: boolean
}

const none: readonly CallAnswer[] = []
/** By patient, in the memory of this page alone: nothing clinical stays on the computer. */
const kept = new Map<string, readonly CallAnswer[]>()
const listeners = new Set<() => void>()
let isWarning = false

const tells = ({ question, asked, value }: CallAnswer) =>
  asked && value.trim() !== '' && tellsReport(question.answer)
/** Answers that no call holds yet, and answers that tell a reading or a symptom and stand in no report yet. */
export const openAnswers = (answers: readonly CallAnswer[]) => ({
  forCall: answers.filter(({ asked, inCall }) => asked && !inCall),
  forReport: answers.filter((answer) => tells(answer) && !answer.inReport),
})

const warn = (event: BeforeUnloadEvent) => event.preventDefault()

function change(patientId: string, next: readonly CallAnswer[]): void {
  const { forCall, forReport } = openAnswers(next)
  // What is stored wherever it belongs is done: the next call begins with an empty sheet.
  const open = next.filter((answer) => forCall.includes(answer) || forReport.includes(answer))
  if (open.length === 0) kept.delete(patientId)
  else kept.set(patientId, open)
  if (kept.size > 0 !== isWarning) {
    isWarning = kept.size > 0
    if (isWarning) window.addEventListener('beforeunload', warn)
    else window.removeEventListener('beforeunload', warn)
  }
  for (const listener of listeners) listener()
}

const subscribe = (listener: () => void) => {
  listeners.add(listener)
  return () => void listeners.delete(listener)
}

export type CallAnswers = {
  list: readonly CallAnswer[]
  /** Those given before the patient's page was opened this time: the page was left in between. */
  left: readonly CallAnswer[]
  set: (question: SheetQuestion, part: { asked?: boolean; value?: string }) => void
  noteInCall: () => void
  noteInReport: () => void
  drop: () => void
}

/** The answers of the call that is under way with one patient, for as long as the page is open. */
export function useCallAnswers(patientId: string): CallAnswers {
  const list = useSyncExternalStore(
    subscribe,
    () => kept.get(patientId) ?? none,
    () => none,
  )
  const openedAt = useMemo(() => browserNow().toISOString(), [patientId])
  return useMemo(() => {
    const now = () => kept.get(patientId) ?? none
    const marked = (part: Partial<CallAnswer>) =>
      change(
        patientId,
        now().map((answer) => ({ ...answer, ...part })),
      )
    return {
      list,
      left: list.filter(({ at }) => at < openedAt),
      set: (question, part) => {
        const before = now().find((answer) => answer.question.key === question.key)
        const value = part.value ?? before?.value ?? ''
        // An answer is there only where it was asked.
        const asked = part.asked ?? (value.trim() !== '' || before?.asked === true)
        const answer = {
          question,
          asked,
          value: asked ? value : '',
          at: browserNow().toISOString(),
          inCall: false,
          inReport: false,
        }
        const others = now().filter((one) => one.question.key !== question.key)
        change(patientId, before ? now().map((one) => (one === before ? answer : one)) : [...others, answer])
      },
      noteInCall: () => marked({ inCall: true }),
      noteInReport: () => marked({ inReport: true }),
      drop: () => change(patientId, none),
    }
  }, [patientId, list, openedAt])
}
