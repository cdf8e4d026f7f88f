import { describe, expect, it } from 'vitest'
import { disableAccount, setRole } from '../../lib/access/index.ts'
import { staffFromHeaders } from '../../lib/access/staff-from-headers.ts'
import { signInDoor } from '../../lib/http/sign-in-door.ts'
import { read, write } from '../../lib/store/index.ts'
import { ask, cookieOf, member, PASSWORD, usePlace } from './place.ts'

usePlace()

const HOUR = 3_600_000
const signIn = async (email: string) =>
  cookieOf(await signInDoor(ask('/api/auth/sign-in/email', { body: { email, password: PASSWORD } })))
const whoHas = (cookie: string, extend?: boolean) =>
  staffFromHeaders(new Headers({ cookie }), extend === undefined ? {} : { extend })
const session = () => read((tx) => tx.session.findFirstOrThrow())
/** As if the session had been started, and last used, so long ago. */
const age = async (startedHours: number, usedHours: number) => {
  const { id, createdAt } = await session()
  const at = (hours: number) => new Date(createdAt.getTime() - hours * HOUR)
  await write((tx) =>
    tx.session.update({
      where: { id },
      data: { createdAt: at(startedHours), expiresAt: at(usedHours - 1), updatedAt: at(usedHours) },
    }),
  )
}

describe('a session', () => {
  it('is its owner’s, as the database has them now', async () => {
    const nurse = await member()
    const cookie = await signIn(nurse.email)
    expect(await whoHas(cookie)).toEqual(nurse)
    await write((tx) => tx.staff.update({ where: { id: nurse.id }, data: { role: 'physician' } }))
    expect(await whoHas(cookie)).toMatchObject({ role: 'physician' })
  })

  it('is nobody’s without its signature, or with another’s', async () => {
    const cookie = await signIn((await member()).email)
    const [, token, signature] = /^(__Host-session=[^.]+)(\..+)$/.exec(cookie) ?? []
    if (!token || !signature) throw new Error(cookie)
    const { token: stored } = await session()
    for (const forged of [
      token,
      `${token}.`,
      `__Host-session=${stored}`,
      `__Host-session=x${signature}`,
      'session=1',
      '',
    ])
      expect(await whoHas(forged)).toBeNull()
  })

  it('ends an hour after its owner last did something', async () => {
    const cookie = await signIn((await member()).email)
    await age(3, 0.98)
    expect(await whoHas(cookie)).not.toBeNull()
    await age(3, 1.01)
    expect(await whoHas(cookie)).toBeNull()
  })

  it('lives on by what its owner does, not by a screen that refreshes itself', async () => {
    const cookie = await signIn((await member()).email)
    await age(0.5, 0.5)
    const { expiresAt } = await session()
    await whoHas(cookie, false)
    expect((await session()).expiresAt).toEqual(expiresAt)
    await whoHas(cookie)
    expect((await session()).expiresAt.getTime() - expiresAt.getTime()).toBeGreaterThan(0.45 * HOUR)
  })

  it('ends twelve hours after sign-in, whatever its owner does', async () => {
    const cookie = await signIn((await member()).email)
    await age(11.5, 0.5)
    await whoHas(cookie)
    const { createdAt, expiresAt } = await session()
    expect(expiresAt.getTime() - createdAt.getTime()).toBe(12 * HOUR)
    expect(await whoHas(cookie)).not.toBeNull()
    await age(12.01, 1.02) // as it stands then
    expect(await whoHas(cookie)).toBeNull()
  })

  it('dies at once with the account, and cannot be had again', async () => {
    const { email } = await member()
    const cookie = await signIn(email)
    await disableAccount(email, 'the test')
    expect(await whoHas(cookie)).toBeNull()
    expect(await signIn(email)).toBe('')
    expect(await read((tx) => tx.session.count())).toBe(0)
  })

  it('of a disabled account is refused even if it was left behind', async () => {
    const { id, email } = await member()
    const cookie = await signIn(email)
    await write((tx) =>
      tx.staff.update({ where: { id }, data: { disabledAt: new Date('2026-03-02T08:00:00Z') } }),
    )
    expect(await whoHas(cookie)).toBeNull()
  })

  it('ends with a change of role', async () => {
    const { email } = await member()
    const cookie = await signIn(email)
    await setRole(email, 'coordinator', 'the test')
    expect(await whoHas(cookie)).toBeNull()
  })

  it('is another one after each sign-in', async () => {
    const { email } = await member()
    expect(await signIn(email)).not.toBe(await signIn(email))
  })
})
