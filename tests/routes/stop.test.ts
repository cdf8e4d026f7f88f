import { beforeEach, describe, expect, it, vi } from 'vitest'
import { GET as look, POST } from '../../app/api/stop/route.ts'
import { stopToken } from '../../lib/notify/stop-token.ts'
import { read } from '../../lib/store/index.ts'
import { house, person } from '../notify/person.ts'
import { openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)
beforeEach(() => void vi.stubEnv('AUTH_SECRET', house.secret))

const ORIGIN = 'https://round.example'
const addressOf = (token: string) => `${ORIGIN}/api/stop?t=${encodeURIComponent(token)}`
const channelOf = async (patientId: string) => {
  const patient = await read((tx) => tx.patient.findUniqueOrThrow({ where: { id: patientId } }))
  return JSON.parse(patient.profile ?? '{}').reminders.channel
}

describe('the address in a mail’s header', () => {
  it('stops when a mail program posts to it, with nothing of a browser about it', async () => {
    const { patientId } = await person()
    const address = addressOf(stopToken(house.secret, patientId, 'email'))
    const post = () =>
      POST(
        new Request(address, {
          method: 'POST',
          headers: { 'content-type': 'application/x-www-form-urlencoded' },
          body: 'List-Unsubscribe=One-Click',
        }),
      )
    for (const answer of [await post(), await post()]) expect(answer.status).toBe(200)
    expect(await channelOf(patientId)).toBe('none')
  })

  it('leads whoever opens it to the page, and changes nothing', async () => {
    const { patientId } = await person()
    const token = stopToken(house.secret, patientId, 'email')
    const answer = await look(new Request(addressOf(token)))
    expect([answer.status, answer.headers.get('location')]).toEqual([303, `/stop?t=${token}`])
    expect(await channelOf(patientId)).toBe('email')
  })

  it('leads the button of the page back to it', async () => {
    const { patientId } = await person()
    const token = stopToken(house.secret, patientId, 'email')
    const answer = await POST(
      new Request(addressOf(token), { method: 'POST', headers: { 'sec-fetch-mode': 'navigate' } }),
    )
    expect([answer.status, answer.headers.get('location')]).toEqual([303, `/stop?t=${token}`])
    expect(await channelOf(patientId)).toBe('none')
  })

  it('without a token of ours is refused', async () => {
    const { patientId } = await person()
    for (const token of ['', 'forged', stopToken('x'.repeat(32), patientId, 'email')])
      expect((await POST(new Request(addressOf(token), { method: 'POST' }))).status).toBe(401)
    expect((await look(new Request(`${ORIGIN}/api/stop`))).status).toBe(401)
    expect(await channelOf(patientId)).toBe('email')
  })
})
