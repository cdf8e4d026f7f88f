import { useMemo } from 'react'
import type { DrainAnswers } from '../answers/draft.ts'
import { originalDraft } from '../answers/from-report.ts'
import { useForm } from './form-context.ts'

/** A drain's answers in the report that is being corrected; undefined where none is. */
export function useOriginal(drain: string): DrainAnswers | undefined {
  const { draft, view } = useForm()
  const { original } = draft
  return useMemo(() => originalDraft({ original }, view)?.drains[drain], [original, view, drain])
}
