import type { Tx } from './client.ts'
import { newId, stored } from './rows.ts'

/** What is to be sent: written in the transaction that gives rise to it, so neither is there without the other. */
export type Letter = {
  clinicId: string
  patientId: string | null
  kind: string
  body: unknown
}

/** Adds a letter and gives its id. */
export async function addLetter(tx: Tx, letter: Letter, now: Date): Promise<string> {
  const id = newId()
  const recordedAt = stored(now)
  await tx.outbox.create({
    data: { id, ...letter, body: JSON.stringify(letter.body), recordedAt, notBefore: recordedAt },
  })
  return id
}
