import { createHash, randomBytes } from 'node:crypto'

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex')

/** A secret of 256 bits, as text for a URL or a header. */
export const newSecret = (): string => randomBytes(32).toString('base64url')

/** One hash for one JSON value, whatever the order of its fields. */
export const hashOfBody = (body: unknown): string => sha256(canonical(body))

function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`
  if (value === null || typeof value !== 'object') return JSON.stringify(value) ?? 'null'
  const fields = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
  return `{${fields.map(([name, field]) => `${JSON.stringify(name)}:${canonical(field)}`).join(',')}}`
}
