import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { handoverDoor, handoverQuery } from '@/lib/client/handover-queries.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import type { HandoverStep } from '@/lib/domain/handover.ts'

const Opened = z.looseObject({ handover: z.string() })
const Stepped = z.looseObject({ signed: z.boolean() })

type Wish =
  | { does: 'open'; note: string }
  | ({ does: 'step'; id: string; says: string } & { body: HandoverStep })
type Done = { says: string; signed: string | null }

/** Opens a handover and takes its steps; says what came of the last one. The page is read again after each, refused or not. */
export function useStep() {
  const client = useQueryClient()
  const [says, setSays] = useState('')
  const work = useMutation({
    mutationFn: async (wish: Wish): Promise<Done> => {
      const key = newKey()
      if (wish.does === 'open') {
        await ask('/api/handovers', Opened, { method: 'POST', key, body: { note: wish.note } })
        return { says: 'The handover is open: somebody else can now accept its rows.', signed: null }
      }
      const { signed } = await ask(handoverDoor(wish.id), Stepped, { method: 'POST', key, body: wish.body })
      return { says: wish.says, signed: signed ? wish.id : null }
    },
    onSuccess: (done) => setSays(done.says),
    onError: (error) => setSays(faultFrom(error).text),
    onSettled: () => client.invalidateQueries({ queryKey: handoverQuery.queryKey }),
  })
  return {
    says,
    isFault: work.isError,
    isBusy: work.isPending,
    signed: work.data?.signed ?? null,
    open: (note: string) => {
      if (!work.isPending) work.mutate({ does: 'open', note })
    },
    step: (id: string, body: HandoverStep, text: string) => {
      if (!work.isPending) work.mutate({ does: 'step', id, body, says: text })
    },
  }
}

export type Stepper = ReturnType<typeof useStep>
