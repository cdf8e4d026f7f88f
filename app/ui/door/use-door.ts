import { useState } from 'react'
import { z } from 'zod'
import { ask, RefusedError } from '@/lib/client/ask.ts'

/** What went wrong at a door: in one sentence, and by field where a field was named. */
export type DoorFault = { text: string; field?: { name: string; message: string } }

/** Sends the one form of a page before sign-in. `onDone` runs when it was taken; until it has moved on, nothing is sent again. */
export function useDoor(path: string, onDone: () => void) {
  const [fault, setFault] = useState<DoorFault | null>(null)
  const [isSending, setSending] = useState(false)
  const send = async (body: Record<string, string>) => {
    if (isSending) return
    setSending(true)
    setFault(null)
    try {
      await ask(path, z.unknown(), { method: 'POST', body })
      onDone()
    } catch (error) {
      setFault(faultFrom(error))
      setSending(false)
    }
  }
  return { send, isSending, fault }
}

function faultFrom(error: unknown): DoorFault {
  if (!(error instanceof RefusedError)) return { text: 'The server did not answer. Try again.' }
  const [first] = error.problem.faults ?? []
  return { text: error.message, ...(first ? { field: { name: first.field, message: first.message } } : {}) }
}
