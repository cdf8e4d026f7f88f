import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { draftDoor } from '@/lib/client/rules-queries.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import type { DraftStep } from '@/lib/domain/rule-draft.ts'

/** A step without the hash, which is that of the draft as it stands on the screen. */
export type Wish = DraftStep extends infer Step
  ? Step extends { seen: string }
    ? Omit<Step, 'seen'>
    : never
  : never

/**
 * Takes steps of a draft and says what came of the last one. The same step that is sent again after no answer brings its
 * key; the page is read again after each.
 */
export function useDraftStep(id: string, hash: string) {
  const client = useQueryClient()
  const sent = useRef({ body: '', key: '' })
  const [says, setSays] = useState('')
  const work = useMutation({
    mutationFn: async ({ wish }: { wish: Wish; says: string }) => {
      const body = { ...wish, seen: hash }
      const text = JSON.stringify(body)
      if (sent.current.body !== text) sent.current = { body: text, key: newKey() }
      await ask(draftDoor(id), z.unknown(), { method: 'POST', body, key: sent.current.key })
    },
    onSuccess: (_, { says: done }) => {
      sent.current = { body: '', key: '' }
      setSays(done)
    },
    onError: () => setSays(''),
    onSettled: () => client.invalidateQueries({ queryKey: ['rule-sets'] }),
  })
  return {
    says,
    fault: work.error ? faultFrom(work.error) : null,
    isSending: work.isPending,
    take: (wish: Wish, done: string, then?: () => void) => {
      if (!work.isPending) work.mutate({ wish, says: done }, { onSuccess: then })
    },
    /** Forgets what went wrong, as when a dialog closes. */
    reset: work.reset,
  }
}
export type Taker = ReturnType<typeof useDraftStep>
