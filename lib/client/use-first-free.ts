import { useMutation, useQueryClient } from '@tanstack/react-query'
import { z } from 'zod'
import { ask } from './ask.ts'
import { newKey } from './new-key.ts'

const FirstFree = z.object({ patientId: z.string() })

/** Takes the first row that nobody has. */
export function useFirstFree() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: () => ask('/api/worklist/first-free', FirstFree, { method: 'POST', key: newKey(), body: {} }),
    onSettled: () => client.invalidateQueries({ queryKey: ['worklist'] }),
  })
}
