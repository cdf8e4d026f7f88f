import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto'
import { Refusal } from '../domain/problem.ts'
import type { Tx } from './client.ts'
import { hashOfBody, sha256 } from './hashes.ts'

const keyFor = (key: string) => Buffer.from(hkdfSync('sha256', key, 'outflow', 'answered', 32))

function seal(key: string, text: string): string {
  const iv = randomBytes(12)
  const cipher = createCipheriv('aes-256-gcm', keyFor(key), iv)
  const sealed = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()])
  return Buffer.concat([iv, cipher.getAuthTag(), sealed]).toString('base64')
}

function unseal(key: string, text: string): string {
  const all = Buffer.from(text, 'base64')
  const decipher = createDecipheriv('aes-256-gcm', keyFor(key), all.subarray(0, 12))
  decipher.setAuthTag(all.subarray(12, 28))
  return Buffer.concat([decipher.update(all.subarray(28)), decipher.final()]).toString('utf8')
}

export type Request = { clinicId: string; source: string; key: string; body: unknown }

/**
 * Does `work` once per key of a source: a repeat gets the first answer and changes nothing, another body under
 * the same key is refused. The answer is sealed with the key itself, since it may hold a patient's link,
 * which the store must not be able to tell.
 */
export async function answerOnce<T>(
  tx: Tx,
  request: Request,
  now: string,
  work: () => Promise<T>,
): Promise<T> {
  const { clinicId, source } = request
  const key = sha256(request.key)
  const bodyHash = hashOfBody(request.body)
  const earlier = await tx.answered.findUnique({ where: { clinicId_source_key: { clinicId, source, key } } })
  if (earlier) {
    if (earlier.bodyHash !== bodyHash)
      throw new Refusal(
        'key-reused',
        'This Idempotency-Key came with another body before; send a new key with a new body.',
      )
    return JSON.parse(unseal(request.key, earlier.answer)) as T
  }
  const answer = await work()
  await tx.answered.create({
    data: {
      clinicId,
      source,
      key,
      bodyHash,
      answer: seal(request.key, JSON.stringify(answer ?? null)),
      recordedAt: now,
    },
  })
  return answer
}
