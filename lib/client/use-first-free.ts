import { useMutation, useQueryClient } from '@tanstack/react-query'
import { z } from 'zod'
import { ask } from './ask.ts'
import { newKey } from './new-key.ts'

const FirstFree = z.object({ patientId: z.string() })

/** Takes the first row that nobody has, other than that of one patient. */
export function useFirstFree() {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (but: string | null) =>
      ask('/api/worklist/first-free', FirstFree, { method: 'POST', key: newKey(), body: { but } }),
    onSettled: () => client.invalidateQueries({ queryKey: ['worklist'] }),
  })
}
