import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { z } from 'zod'
import { ask, isRefusal, RefusedError } from './ask.ts'
import { newKey } from './new-key.ts'

/** What a form says of a try that failed: in one sentence, and by field where the door named the fields. */
export type SendFault = { text: string; fields: { field: string; message: string }[]; stored: boolean }

/**
 * Sends what a form holds, with a key made once for the form as it was opened: a second press, or a try after
 * no answer, stores nothing twice. What hangs on the patient is read again afterwards. A form that outlives a
 * reload brings the key that it keeps.
 */
export function useSend<T>(
  door: string,
  answer: z.ZodType<T>,
  onSent: (value: T) => void,
  kept?: string,
  method: 'POST' | 'DELETE' = 'POST',
) {
  const client = useQueryClient()
  const [made] = useState(newKey)
  const key = kept ?? made
  const send = useMutation({
    mutationFn: (body: unknown) => ask(door, answer, { method, body, key }),
    onSuccess: (value) => {
      onSent(value)
      void client.invalidateQueries()
    },
  })
  return {
    /** A press while the first is on its way does nothing. */
    send: (body: unknown) => {
      if (!send.isPending) send.mutate(body)
    },
    isSending: send.isPending,
    fault: send.error ? faultFrom(send.error) : null,
  }
}

export function faultFrom(error: unknown): SendFault {
  if (isRefusal(error, 'key-reused'))
    return {
      text: 'This was stored already, as it was sent the first time. Close this form and look before you write again.',
      fields: [],
      stored: true,
    }
  if (error instanceof RefusedError)
    return {
      text: error.message,
      fields: (error.problem.faults ?? []).map(({ field, message }) => ({ field, message })),
      stored: false,
    }
  return {
    text: error instanceof Error ? error.message : 'This did not work; try again.',
    fields: [],
    stored: false,
  }
}
