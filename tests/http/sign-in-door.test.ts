import { describe, expect, it, vi } from 'vitest'
import { disableAccount, linkToSetPassword, staffFromHeaders } from '../../lib/access/index.ts'
import { log } from '../../lib/http/log.ts'
import { signInDoor } from '../../lib/http/sign-in-door.ts'
import { read, write } from '../../lib/store/index.ts'
import { ask, cookieOf, member, PASSWORD, usePlace } from '../access/place.ts'

usePlace()

const signIn = (email: string, password = PASSWORD) =>
  signInDoor(ask('/api/auth/sign-in/email', { body: { email, password } }))
const kindOf = async (response: Response) =>
  response.ok ? 'done' : (await response.json()).type.split(':').at(-1)
const records = () => read((tx) => tx.accessRecord.findMany({ orderBy: { seq: 'asc' } }))
const tokenOf = (link: string) => new URL(link).hash.slice(1)
const setPassword = (token: string, newPassword: string) =>
  signInDoor(ask('/api/auth/reset-password', { body: { token, newPassword } }))
const OTHER = 'another sheet of plain tracing paper'

describe('signing in', () => {
  it('gives a cookie that no script reads and that ends with the browser', async () => {
    const response = await signIn((await member()).email)
    const cookies = response.headers.getSetCookie()
    expect(cookies).toHaveLength(1)
    expect(cookies[0]).toMatch(/^__Host-session=[^;]+; Path=\/; HttpOnly; Secure; SameSite=Lax$/)
    expect(await response.json()).toEqual({ done: true })
  })

  it('answers an unknown address, a wrong password and a disabled account alike', async () => {
    const [known, gone] = [await member(), await member()]
    await disableAccount(gone.email, 'the test')
    const answers = []
    for (const response of [
      await signIn('nobody@larkfield.example'),
      await signIn(known.email, 'wrong'),
      await signIn(gone.email),
      await signIn('no address'),
      await signIn(known.email, 'x'.repeat(900)),
    ]) {
      const { instance: _, ...problem } = await response.json()
      answers.push({ status: response.status, cookies: response.headers.getSetCookie(), problem })
    }
    expect(new Set(answers.map((answer) => JSON.stringify(answer))).size).toBe(1)
    expect(answers[0]).toMatchObject({
      status: 401,
      cookies: [],
      problem: { type: 'urn:outflow-round:problem:not-signed-in' },
    })
  })

  it('is entered in the access record, as is a refusal and leaving', async () => {
    const { email, name } = await member()
    await signIn(email, 'wrong')
    const cookie = cookieOf(await signIn(email))
    await signInDoor(ask('/api/auth/sign-out', { cookie, body: {} }))
    expect((await records()).slice(1).map(({ action, actor }) => [action, actor])).toEqual([
      ['sign-in-refused', `somebody, as ${name}`],
      ['sign-in', name],
      ['sign-out', name],
    ])
  })

  it('is refused unread after ten wrong passwords, at once or not, and entered once', async () => {
    const [{ email }, other] = [await member(), await member()]
    const kinds = await Promise.all(
      Array.from({ length: 14 }, async () => kindOf(await signIn(email, 'wrong'))),
    )
    expect(kinds.filter((kind) => kind === 'not-signed-in').length).toBe(10)
    expect(await kindOf(await signIn(email))).toBe('too-many')
    expect((await records()).filter(({ action }) => action === 'sign-in-blocked').length).toBe(1)
    expect(await kindOf(await signIn(other.email))).toBe('done')
  })

  it('never counts what succeeds', async () => {
    const { email } = await member()
    for (let i = 0; i < 12; i++) expect(await kindOf(await signIn(email))).toBe('done')
  })

  it('is not called a wrong password when it is the server that is broken', async () => {
    const { email } = await member()
    vi.spyOn(log, 'error').mockImplementation(() => undefined)
    await write((tx) => tx.$executeRaw`UPDATE "Staff" SET "role" = 'stoker' WHERE "email" = ${email}`)
    expect((await signIn(email)).status).toBe(500)
  })

  it('needs our own page', async () => {
    const { email } = await member()
    const headers = { origin: 'https://evil.example', 'sec-fetch-site': 'cross-site' }
    expect(
      await kindOf(
        await signInDoor(ask('/api/auth/sign-in/email', { headers, body: { email, password: PASSWORD } })),
      ),
    ).toBe('not-allowed')
  })
})

describe('a program', () => {
  it('signs in without an origin, as JSON; a form does not', async () => {
    const { email } = await member()
    const send = (type: string, mode: Record<string, string> = {}) =>
      signInDoor(
        new Request('http://127.0.0.1:3000/api/auth/sign-in/email', {
          method: 'POST',
          headers: { 'content-type': type, ...mode },
          body: JSON.stringify({ email, password: PASSWORD }),
        }),
      )
    expect(await kindOf(await send('application/json'))).toBe('done')
    expect(await kindOf(await send('application/json', { 'sec-fetch-mode': 'cors' }))).toBe('done')
    expect(await kindOf(await send('text/plain'))).toBe('not-allowed')
  })
})

describe('leaving', () => {
  it('ends the session at the server and takes the cookie away', async () => {
    const cookie = cookieOf(await signIn((await member()).email))
    const response = await signInDoor(ask('/api/auth/sign-out', { cookie, body: {} }))
    expect(response.headers.getSetCookie().join()).toMatch(/__Host-session=; Max-Age=0/i)
    expect(await staffFromHeaders(new Headers({ cookie }))).toBeNull()
    expect(await read((tx) => tx.session.count())).toBe(0)
  })
})

describe('a forgotten password', () => {
  const forget = (email: string) => signInDoor(ask('/api/auth/request-password-reset', { body: { email } }))
  const letters = () => read((tx) => tx.outbox.findMany())

  it('is answered alike for an address that nobody has, and no letter is written', async () => {
    const { email } = await member()
    const answers = [await forget(email), await forget('nobody@larkfield.example')]
    const [known, unknown] = await Promise.all(
      answers.map(async (answer) => [answer.status, await answer.text()]),
    )
    expect(known).toEqual(unknown)
    await vi.waitFor(async () => expect(await letters()).toHaveLength(1))
    expect(JSON.parse((await letters())[0]?.body ?? '')).toMatchObject({ to: email })
  })

  it('writes no letter to a disabled account', async () => {
    const { email } = await member()
    await disableAccount(email, 'the test')
    await forget(email)
    const other = await member()
    await forget(other.email)
    await vi.waitFor(async () => expect(await letters()).toHaveLength(1))
    expect((await letters())[0]?.body).toContain(other.email)
  })

  it('writes three letters an hour and no more', async () => {
    const { email } = await member()
    for (let i = 0; i < 6; i++) expect((await forget(email)).status).toBe(200)
    await vi.waitFor(async () => expect(await letters()).toHaveLength(3))
    await new Promise((resolve) => setTimeout(resolve, 200))
    expect(await letters()).toHaveLength(3)
  })

  it('is replaced through the link, once, and every session ends', async () => {
    const { email } = await member()
    const cookie = cookieOf(await signIn(email))
    await forget(email)
    await vi.waitFor(async () => expect(await letters()).toHaveLength(1))
    const token = tokenOf(JSON.parse((await letters())[0]?.body ?? '').link)
    expect(await kindOf(await setPassword(token, OTHER))).toBe('done')
    expect(await staffFromHeaders(new Headers({ cookie }))).toBeNull()
    expect([await kindOf(await signIn(email)), await kindOf(await signIn(email, OTHER))]).toEqual([
      'not-signed-in',
      'done',
    ])
    expect(await kindOf(await setPassword(token, PASSWORD))).toBe('link-not-valid')
    expect((await records()).map(({ action }) => action)).toContain('set-password')
  })

  it('is replaced by one of two that come at once', async () => {
    const token = tokenOf(await linkToSetPassword((await member()).email))
    const kinds = await Promise.all(
      [setPassword(token, OTHER), setPassword(token, PASSWORD)].map(async (answer) => kindOf(await answer)),
    )
    expect(kinds.sort()).toEqual(['done', 'link-not-valid'])
  })

  it('is not replaced by one that is guessed, and the link stays good', async () => {
    const token = tokenOf(await linkToSetPassword((await member()).email))
    const response = await setPassword(token, 'qwertyuiopasdfg')
    const text = await response.clone().text()
    expect([await kindOf(response), text.includes('newPassword'), text.includes('qwerty')]).toEqual([
      'invalid-input',
      true,
      false,
    ])
    expect(await kindOf(await setPassword(token, OTHER))).toBe('done')
  })

  it('is not replaced by an old link, nor by what the store holds', async () => {
    const { email } = await member()
    const token = tokenOf(await linkToSetPassword(email))
    const { identifier, id, createdAt } = await read((tx) => tx.verification.findFirstOrThrow())
    expect(identifier).not.toContain(token)
    expect(await kindOf(await setPassword(identifier, OTHER))).toBe('link-not-valid')
    await write((tx) =>
      tx.verification.update({ where: { id }, data: { expiresAt: new Date(createdAt.getTime() - 1000) } }),
    )
    expect(await kindOf(await setPassword(token, OTHER))).toBe('link-not-valid')
  })
})

describe('what else the sign-in library can do', () => {
  it.each([
    'sign-up/email',
    'get-session',
    'update-user',
    'change-email',
    'delete-user',
    'list-sessions',
    'sign-in/social',
    'reset-password/abc',
    'ok',
    'error',
    '../auth/sign-up/email',
    'sign-in/email/',
  ])('%s is out of reach', async (path) => {
    const body = { email: 'new@larkfield.example', password: PASSWORD, name: 'New' }
    expect(await kindOf(await signInDoor(ask(`/api/auth/${path}`, { body })))).toBe('not-found')
    expect(await read((tx) => tx.staff.count())).toBe(0)
  })
})
