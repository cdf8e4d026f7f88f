import { beforeEach, describe, expect, it, vi } from 'vitest'
import { POST } from '../../app/api/on-call/[id]/route.ts'
import { forgetCounts } from '../../lib/http/limits.ts'
import { read, write } from '../../lib/store/index.ts'
import { checkHours, stepDue } from '../../lib/worklist/escalate.ts'
import { onCall } from '../../lib/worklist/index.ts'
import { profile } from '../notify/person.ts'
import { at, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import {
  drainOut,
  escalations,
  MORNING,
  NIGHT,
  onCallPerson,
  SECRET,
  setHours,
  tokenOf,
} from '../worklist/night.ts'

databasePerTest()
beforeEach(openClinics)
beforeEach(() => setHours())
beforeEach(() => {
  forgetCounts()
  vi.stubEnv('AUTH_SECRET', SECRET)
  vi.stubEnv('SMTP_URL', 'smtp://mail.example')
})

const minutes = (n: number) => at(NIGHT + n / 60)
const ask = (id: string, body: unknown, headers: Record<string, string> = {}) =>
  POST(
    new Request(`http://127.0.0.1:3000/api/on-call/${id}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...headers },
      body: JSON.stringify(body),
    }),
  )

/** A patient whose drain is out in the night, with two people told, one after the other. */
async function told() {
  await onCallPerson('Abe', 1)
  await onCallPerson('Bea', 2)
  const { patientId, drain } = await patient()
  await drainOut(patientId, drain, NIGHT)
  await stepDue(minutes(0), null)
  await stepDue(minutes(10), null)
  const { name, recordNumber } = await read((tx) =>
    tx.patient.findUniqueOrThrow({ where: { id: patientId } }),
  )
  return { patientId, name, recordNumber, abe: await tokenOf('Abe'), bea: await tokenOf('Bea') }
}
const records = () => read((tx) => tx.accessRecord.findMany({ where: { actor: { endsWith: '(on call)' } } }))

describe('the link of a message', () => {
  it('shows what was found and no identity, until its person has said ‘I have it’', async () => {
    const { abe, bea, name, recordNumber, patientId } = await told()
    const seen = await onCall(abe.id, { token: abe.token, wish: 'look' }, minutes(11))
    expect(seen).toMatchObject({
      state: 'waiting',
      identity: null,
      you: 'Abe (invented)',
      urgency: 'at-once',
    })
    expect(seen.findings[0]).toMatchObject({ code: 'drain-out', drain: 'left kidney' })
    for (const text of [name, recordNumber, patientId]) expect(JSON.stringify(seen)).not.toContain(text)
    const mine = await onCall(abe.id, { token: abe.token, wish: 'have-it' }, minutes(12))
    expect(mine).toMatchObject({ state: 'yours', identity: { name, recordNumber, patientId } })
    const others = await onCall(bea.id, { token: bea.token, wish: 'look' }, minutes(13))
    expect(others).toMatchObject({
      state: 'others',
      identity: null,
      says: expect.stringContaining('Abe (invented) has it'),
    })
    expect((await records()).map(({ action }) => action)).toEqual([
      'view-on-call',
      'on-call-have-it',
      'view-on-call',
      'view-on-call',
    ])
  })

  it('lets one person have it: the second is told who has, whoever comes first', async () => {
    const { abe, bea } = await told()
    const tries = [abe, bea, abe, bea].map(({ id, token }) =>
      onCall(id, { token, wish: 'have-it' }, minutes(11)),
    )
    const done = await Promise.allSettled(tries)
    expect(done.filter(({ status }) => status === 'fulfilled')).toHaveLength(2)
    const [one] = await escalations()
    expect(one?.lines.filter((line) => line.startsWith('have-it'))).toHaveLength(1)
    const taken = await ask(bea.id, { token: bea.token, wish: 'have-it' })
    expect([200, 409]).toContain(taken.status)
  })

  it('passes it on: the next is told at once, and whoever had it has it no more', async () => {
    const { abe, bea } = await told()
    await onCall(bea.id, { token: bea.token, wish: 'have-it' }, minutes(11))
    const passed = await onCall(bea.id, { token: bea.token, wish: 'pass-on' }, minutes(12))
    expect(passed).toMatchObject({ state: 'waiting', identity: null })
    await stepDue(minutes(12), null)
    const [one] = await escalations()
    expect(one?.lines.slice(-3)).toEqual(['declined Bea', 'passed-on Abe', 'told Abe'])
    expect(one?.haveItBy).toBeNull()
    expect((await onCall(abe.id, { token: abe.token, wish: 'look' }, minutes(13))).state).toBe('waiting')
  })

  it('says that it is over, shows nobody any more, and takes nothing', async () => {
    const { abe } = await told()
    await onCall(abe.id, { token: abe.token, wish: 'have-it' }, minutes(11))
    await checkHours(at(MORNING))
    const over = await onCall(abe.id, { token: abe.token, wish: 'look' }, at(MORNING + 0.1))
    expect(over).toMatchObject({ state: 'over', identity: null, findings: [] })
    await expect(onCall(abe.id, { token: abe.token, wish: 'have-it' }, at(MORNING + 0.1))).rejects.toThrow(
      'over',
    )
    await expect(onCall(abe.id, { token: abe.token, wish: 'look' }, at(MORNING + 25))).rejects.toThrow(
      'not valid',
    )
  })

  it('shows whom to call, in order, with what may be said to each', async () => {
    const { abe, patientId } = await told()
    await write((tx) =>
      tx.patient.update({
        where: { id: patientId },
        data: { profile: JSON.stringify(profile()), phone: '+1 555 0101' },
      }),
    )
    const mine = await onCall(abe.id, { token: abe.token, wish: 'have-it' }, minutes(11))
    expect(mine.identity?.contacts).toMatchObject([{ phone: '+1 555 0101', mayDisclose: 'call-back-only' }])
    expect(mine.identity?.weighs.join()).toContain('Not asked')
  })
})

describe('the door', () => {
  it('opens to nothing but the secret, and to that only for its own escalation', async () => {
    const { abe } = await told()
    for (const body of [
      {},
      { token: abe.token },
      { token: abe.token, wish: 'shout' },
      { token: 'x', wish: 'look', more: 1 },
    ])
      expect((await ask(abe.id, body)).status).toBe(400)
    for (const [id, token] of [
      [abe.id, 'forged'],
      ['another', abe.token],
      [abe.id, abe.token.slice(1)],
    ] as const)
      expect((await ask(id, { token, wish: 'look' })).status).toBe(401)
    expect(
      (await ask(abe.id, { token: abe.token, wish: 'look' }, { origin: 'https://evil.example' })).status,
    ).toBe(403)
  })

  it('slows and then refuses whoever guesses, and nobody else', async () => {
    const { abe } = await told()
    vi.useFakeTimers({ toFake: ['setTimeout'] })
    try {
      const guess = async () => {
        const answer = ask(abe.id, { token: 'forged', wish: 'look' }, { 'x-forwarded-for': '203.0.113.9' })
        for (let i = 0; i < 50; i++) await vi.advanceTimersByTimeAsync(200)
        return (await answer).status
      }
      const answers: number[] = []
      for (let i = 0; i < 21; i++) answers.push(await guess())
      expect(new Set(answers.slice(0, 20))).toEqual(new Set([401]))
      expect(answers[20]).toBe(429)
    } finally {
      vi.useRealTimers()
    }
    expect(
      (await ask(abe.id, { token: abe.token, wish: 'look' }, { 'x-forwarded-for': '203.0.113.10' })).status,
    ).not.toBe(429)
  }, 60_000)
})
