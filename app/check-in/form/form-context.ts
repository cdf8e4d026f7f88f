import { createContext, useContext } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Check } from '../answers/checks.ts'
import type { Draft, DrainAnswers } from '../answers/draft.ts'

/** What a question needs: the answers, how to change them, and what is to be looked at. */
export type Form = {
  view: CheckInView
  draft: Draft
  now: () => Date
  patch: (answers: Partial<Draft>) => void
  patchDrain: (drain: string, answers: Partial<DrainAnswers>) => void
  /** What is wrong with one question, once the person has tried to go on. */
  checkOf: (field: string) => Check | undefined
  /** An unusual value is meant. */
  confirm: (check: Check) => void
}

export const FormContext = createContext<Form | null>(null)

export function useForm(): Form {
  const form = useContext(FormContext)
  if (!form) throw new Error('a question stands outside the form')
  return form
}
