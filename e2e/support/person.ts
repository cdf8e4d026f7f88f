import { randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import path from 'node:path'
import type { NewDrain } from '../../lib/domain/enrolment.ts'
import type { Report } from '../../lib/domain/record.ts'
import { askWell } from './ask.ts'
import type { Server } from './server.ts'

const DAY_MS = 86_400_000

/** A kidney tube of two weeks, flushed with 10 mL once a day, with a bag of 600 mL. */
const kidneyTube = (now: number): NewDrain => ({
  label: 'left kidney',
  kind: 'nephrostomy',
  side: 'left',
  placedAt: new Date(now - 14 * DAY_MS).toISOString(),
  bagCapacityMl: 600,
  plan: { logEveryHours: 24, dressingEveryHours: 48, flush: { volumeMl: 10, everyHours: 24 } },
})

export type Person = {
  patientId: string
  /** The whole address of the personal link. */
  link: string
  /** A further link, and the end of all of them, as a nurse gives them. */
  newLink(): Promise<string>
  revokeLinks(): Promise<void>
  /** A code that renews a link, as a nurse reads it out. */
  renewalCode(): Promise<string>
  /** The person's reports as the clinic has them. */
  reports(): Promise<Report[]>
}

/** Enrols an invented person through the nurse's door, so that a journey has somebody of its own. */
export async function enrolPerson(
  server: Server,
  name: string,
  drain: Partial<NewDrain> = {},
): Promise<Person> {
  const ask = await asNurse(server)
  const now = Date.now()
  const { patientId, link } = await ask('POST', '/api/patients', {
    name,
    birthDate: '1958-03-12',
    recordNumber: `T-${randomUUID().slice(0, 8)}`,
    timeZone: 'America/Denver',
    enrolledAt: new Date(now - 10 * DAY_MS).toISOString(),
    drains: [{ ...kidneyTube(now), ...drain }],
  })
  const door = `/api/patients/${patientId}`
  const whole = (path: string) => new URL(path, server.origin).href
  return {
    patientId,
    link: whole(link),
    newLink: async () => whole((await ask('POST', `${door}/link`)).link),
    revokeLinks: () => ask('DELETE', `${door}/link`),
    renewalCode: async () => (await ask('POST', `${door}/link/code`)).code,
    reports: async () => (await ask('GET', door)).record.reports,
  }
}

/** Calls a nurse's doors with the session of the demo scenario's nurse. */
async function asNurse({ origin, folder }: Server) {
  const { signIns } = JSON.parse(readFileSync(path.join(folder, 'demo.json'), 'utf8'))
  const { email, password } = signIns.find((signIn: { role: string }) => signIn.role === 'nurse')
  const call = (method: string, door: string, body: unknown, cookie = '') =>
    askWell(method, origin + door, body, { origin, cookie, 'Idempotency-Key': randomUUID() })
  const { cookie } = await call('POST', '/api/auth/sign-in/email', { email, password })
  // biome-ignore lint/suspicious/noExplicitAny: what a door answers is read where it was asked
  return async (method: string, door: string, body?: unknown): Promise<any> =>
    (await call(method, door, body, cookie)).body
}
