'use client'

import { useMutation, useQueryClient } from '@tanstack/react-query'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { inquiryDoor } from '@/lib/client/outcomes-queries.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { type DueInquiry, OutcomeSaved } from '@/lib/domain/outcomes-page.ts'

/** One press answers: none, or not known. */
export function useAnswer(onSaved: (due: DueInquiry, answer: 'none' | 'unknown') => void) {
  const client = useQueryClient()
  const work = useMutation({
    mutationFn: ({ due, answer }: { due: DueInquiry; answer: 'none' | 'unknown' }) =>
      ask(inquiryDoor(due.patientId), OutcomeSaved, {
        method: 'POST',
        key: newKey(),
        body: { about: due.about, answer },
      }),
    onSuccess: (_, { due, answer }) => {
      onSaved(due, answer)
      return client.invalidateQueries({ queryKey: ['outcomes'] })
    },
  })
  return {
    answer: (due: DueInquiry, answer: 'none' | 'unknown') => {
      if (!work.isPending) work.mutate({ due, answer })
    },
    isSending: work.isPending,
    fault: work.error ? faultFrom(work.error).text : null,
  }
}
