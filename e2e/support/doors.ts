import type { Page } from '@playwright/test'
import { ask, askWell } from './ask.ts'
import type { Person } from './person.ts'
import type { Server } from './server.ts'

export type Answer = { status: number; type: string | null; body: Record<string, unknown> }

/** Posts to one of the server's doors as a program would, with nothing of a browser about it. */
export async function post(
  address: string,
  body: unknown,
  headers: Readonly<Record<string, string>> = {},
): Promise<Answer> {
  const answer = await ask('POST', address, body, headers)
  return { status: answer.status, type: answer.type, body: answer.body as Answer['body'] }
}

export type Send = (body: unknown, key: string) => Promise<Answer>

/** The check-in door, open for the person of a link; and the person's first drain. */
export async function checkInDoor(
  { origin }: Server,
  { link }: Person,
): Promise<{ send: Send; drain: string }> {
  const cookie = await sessionCookie(link)
  const door = `${origin}/api/check-in`
  const view = (await askWell('GET', door, undefined, { cookie })).body as { drains: { id: string }[] }
  return {
    send: (body, key) => post(door, body, { cookie, 'Idempotency-Key': key }),
    drain: view.drains[0]?.id ?? '',
  }
}

/** The cookie of a check-in session, for the token in a personal link. */
async function sessionCookie(link: string): Promise<string> {
  const { origin, hash } = new URL(link)
  return (await askWell('POST', `${origin}/api/link`, { token: hash.slice(1) })).cookie
}

/** Asks a door from within an open page, with the page's own session. */
export async function askFrom<T>(
  page: Page,
  method: 'GET' | 'POST',
  door: string,
  body?: unknown,
): Promise<T> {
  const { ok, text } = await page.evaluate(
    async ({ method, door, body }) => {
      const answer = await fetch(door, {
        method,
        headers: { 'Content-Type': 'application/json', 'Idempotency-Key': crypto.randomUUID() },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      })
      return { ok: answer.ok, text: await answer.text() }
    },
    { method, door, body },
  )
  if (!ok) throw new Error(`${method} ${door}: ${text}`)
  return JSON.parse(text)
}
