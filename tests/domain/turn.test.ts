import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { EscalationStep } from '../../lib/domain/escalation.ts'
import { onCallAt, type Shift } from '../../lib/domain/rota.ts'
import { endOf, nextTurn, onCallState, turnOf } from '../../lib/domain/turn.ts'

const START = Date.parse('2026-03-03T04:00:00Z')
const minute = (n: number) => START + n * 60_000
const iso = (n: number) => new Date(minute(n)).toISOString()
const step = (n: number, kind: EscalationStep['kind'], name: string | null = null): EscalationStep => ({
  at: iso(n),
  kind,
  shiftId: name,
  channel: kind === 'told' ? 'email' : null,
  by: name,
  why: null,
})
const shift = (id: string, rank: number, until = 600): Shift => ({
  id,
  name: id,
  email: `${id}@larkfield.example`,
  phone: null,
  rank,
  from: iso(-60),
  until: iso(until),
})
const [ann, bob] = [shift('ann', 1), shift('bob', 2)]

describe('whose turn it is', () => {
  it('is the first by rank before anybody was told', () => {
    expect(nextTurn([step(0, 'opened')], [ann, bob], 10, minute(0))).toMatchObject({ shift: ann, why: null })
  })
  it('stays with one person until the time to pass on, and is the next one’s from that very instant', () => {
    const steps = [step(0, 'told', 'ann'), step(5, 'told', 'ann')]
    expect(nextTurn(steps, [ann, bob], 10, minute(9.99))).toMatchObject({ shift: ann, why: null })
    expect(nextTurn(steps, [ann, bob], 10, minute(10))).toMatchObject({
      shift: bob,
      why: 'no answer from ann within 10 min',
      begunAgain: false,
    })
  })
  it('begins again at the first after the last, and with one person alone at that person', () => {
    const steps = [step(0, 'told', 'ann'), step(10, 'passed-on', 'bob'), step(10, 'told', 'bob')]
    expect(nextTurn(steps, [ann, bob], 10, minute(20))).toMatchObject({ shift: ann, begunAgain: true })
    expect(nextTurn([step(0, 'told', 'ann')], [ann], 10, minute(10))).toMatchObject({
      shift: ann,
      begunAgain: true,
    })
    const again = [step(0, 'told', 'ann'), step(10, 'passed-on', 'ann'), step(10, 'told', 'ann')]
    expect(turnOf(again)?.sinceMs).toBe(minute(10))
  })
  it('is passed on at once by whoever cannot, and from whoever is no longer on call', () => {
    const cannot = [step(0, 'told', 'ann'), step(1, 'declined', 'ann')]
    expect(nextTurn(cannot, [ann, bob], 10, minute(1))).toMatchObject({ shift: bob, why: 'ann cannot' })
    expect(nextTurn([step(0, 'told', 'ann')], [bob], 10, minute(1))).toMatchObject({
      shift: bob,
      why: 'ann is no longer on call',
    })
  })
  it('is theirs again who had it when something more urgent comes', () => {
    const steps = [
      step(0, 'told', 'ann'),
      step(12, 'told', 'bob'),
      step(13, 'have-it', 'bob'),
      step(30, 'raised'),
    ]
    expect(nextTurn(steps, [ann, bob], 10, minute(30))).toMatchObject({ shift: bob, sinceMs: minute(30) })
  })
  it('is not moved by a message to the address of last resort', () => {
    const steps = [step(0, 'told', 'ann'), step(0, 'told', null)]
    expect(turnOf(steps)).toMatchObject({ shiftId: 'ann' })
  })
  it('is nobody’s where nobody is on call', () => {
    expect(nextTurn([], [], 10, minute(0))).toBeNull()
  })
})

it('who is on call: from the beginning of a shift up to its end, by rank', () => {
  const day = { ...shift('day', 1), from: iso(0), until: iso(60) }
  expect(onCallAt([bob, day], minute(-1))).toEqual([bob])
  expect(onCallAt([bob, day], minute(0))).toEqual([day, bob])
  expect(onCallAt([bob, day], minute(60))).toEqual([bob])
})

it('how it stands says who was told, how often, and who has it', () => {
  const kept = { recordedAt: iso(0), haveItAt: null, haveItBy: null }
  expect(onCallState(kept, [step(0, 'opened')])).toMatchObject({ state: 'waiting', tries: 0 })
  const steps = [step(0, 'told', 'ann'), step(0, 'told', 'ann'), step(5, 'told', 'ann')]
  expect(onCallState(kept, steps)).toMatchObject({ state: 'told', name: 'ann', tries: 2, at: iso(5) })
  expect(onCallState(kept, [...steps, step(9, 'nobody')])).toMatchObject({ state: 'nobody' })
  expect(onCallState({ ...kept, haveItAt: iso(6), haveItBy: 'ann' }, steps)).toMatchObject({
    state: 'has-it',
    name: 'ann',
  })
})

it('it ends for a reason alone', () => {
  const stands = { isOnWorklist: false, unspoken: 1, spoken: 0, isInHospital: false }
  expect(endOf(stands)).toBeNull()
  expect(endOf({ ...stands, isOnWorklist: true })).toMatch(/clinic is open/)
  expect(endOf({ ...stands, isInHospital: true })).toMatch(/hospital/)
  expect(endOf({ ...stands, unspoken: 0, spoken: 1 })).toMatch(/spoken/)
  expect(endOf({ ...stands, unspoken: 0 })).toMatch(/Nothing/)
})

it('with anybody on call somebody is asked, whoever else came, went or declined', () => {
  const kinds = [
    'told',
    'no-way',
    'declined',
    'have-it',
    'raised',
    'news',
    'looked',
    'nobody',
    'passed-on',
  ] as const
  const someSteps = fc.array(
    fc.record({
      n: fc.nat(300),
      kind: fc.constantFrom(...kinds),
      name: fc.constantFrom('ann', 'bob', 'cyd', null),
    }),
    { maxLength: 30 },
  )
  const ranks = fc.uniqueArray(fc.constantFrom('ann', 'bob', 'cyd'), { minLength: 1 })
  fc.assert(
    fc.property(
      someSteps,
      ranks,
      fc.integer({ min: 2, max: 240 }),
      fc.nat(400),
      (drawn, names, passOn, now) => {
        const steps = drawn.toSorted((a, b) => a.n - b.n).map(({ n, kind, name }) => step(n, kind, name))
        const onCall = names.map((name, i) => shift(name, i + 1))
        const next = nextTurn(steps, onCall, passOn, minute(now))
        expect(onCall).toContain(next?.shift)
        expect(
          next && next.why === null
            ? next.sinceMs + passOn * 60_000 > minute(now) || turnOf(steps) === null
            : true,
        ).toBe(true)
      },
    ),
  )
})
