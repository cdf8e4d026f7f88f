import { useMutation, useQueryClient } from '@tanstack/react-query'
import { z } from 'zod'
import { ask } from './ask.ts'
import { newKey } from './new-key.ts'
import { patientDoor } from './patient-door.ts'

/** What can be done with a row: take it, keep it for longer, give it back, take it from somebody for a reason. */
export type HoldStep =
  | { patientId: string; step: 'take' | 'renew' | 'release' }
  | { patientId: string; step: 'override'; reason: string }

const methods = { take: 'POST', override: 'POST', renew: 'PUT', release: 'DELETE' } as const

/** Changes who has a row. The list is read again whatever the answer: a refusal means that it is out of date. */
export function useHold() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (wanted: HoldStep) =>
      ask(`${patientDoor(wanted.patientId)}/hold`, z.unknown(), {
        method: methods[wanted.step],
        key: newKey(),
        ...(methods[wanted.step] === 'POST'
          ? { body: wanted.step === 'override' ? { reason: wanted.reason } : {} }
          : {}),
      }),
    onSettled: (_answer, _error, { patientId }) =>
      Promise.all([
        client.invalidateQueries({ queryKey: ['worklist'] }),
        client.invalidateQueries({ queryKey: ['patient', patientId] }),
      ]),
  })
}
