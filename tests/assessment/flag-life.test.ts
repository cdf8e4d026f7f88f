import { describe, expect, it } from 'vitest'
import { applyCall, closingFaults } from '../../lib/assessment/flag-call.ts'
import { evidence, finding, hour, Life } from './flags.ts'

type Close = { closes?: string[]; lookAgainAt?: number }

/** A call at that hour which reached somebody. */
function call(life: Life, at: number, { closes = [], lookAgainAt }: Close = {}): Life {
  const look = lookAgainAt === undefined ? null : hour(lookAgainAt)
  life.take(applyCall(life.flags, { at: hour(at), by: 'nurse', closes, lookAgainAt: look, why: 'Agreed.' }))
  return life
}

const closedAt2 = (lookAgainAt = 20) =>
  call(new Life().find(1, finding()), 2, { closes: ['f1'], lookAgainAt })

describe('a flag opens', () => {
  it('when a finding holds, with the urgency, since and act by of the finding', () => {
    const { only } = new Life().find(1, finding())
    expect(only).toMatchObject({
      state: 'open',
      urgency: 'within-1h',
      since: hour(0),
      actBy: hour(1),
      openedAt: hour(1),
    })
  })

  it('once per code and drain', () => {
    const life = new Life().find(1, finding(), finding({ drain: 'd2' }), finding({ code: 'leak' }))
    expect(life.find(2, finding(), finding({ drain: 'd2' }), finding({ code: 'leak' })).flags).toHaveLength(3)
    expect(life.steps).toEqual(['opened', 'opened', 'opened'])
  })

  it('for the patient as a whole apart from a drain of the same code', () => {
    const life = new Life().find(
      1,
      finding({ code: 'infection-signs', drain: null }),
      finding({ code: 'infection-signs' }),
    )
    expect(life.flags.map(({ drain }) => drain)).toEqual([null, 'd1'])
  })
})

describe('while a flag stands', () => {
  it('its act by never moves later at the same urgency', () => {
    const { only } = new Life().find(1, finding()).find(3, finding({ since: hour(3), actBy: hour(4) }))
    expect(only).toMatchObject({ since: hour(0), actBy: hour(1) })
  })

  it('it rises with the finding, and says so', () => {
    const life = new Life()
      .find(1, finding({ urgency: 'within-24h' }))
      .find(2, finding({ urgency: 'at-once', since: hour(2) }))
    expect(life.only).toMatchObject({ urgency: 'at-once', actBy: hour(2), since: hour(2) })
    expect(life.steps).toEqual(['opened', 'raised'])
  })

  it('its urgency does not fall before somebody has spoken to the patient', () => {
    const life = new Life().find(1, finding()).find(2, finding({ urgency: 'within-24h' }))
    expect(life.only).toMatchObject({ state: 'open', urgency: 'within-1h', actBy: hour(1) })
    expect(life.only.finding.urgency).toBe('within-24h')
  })

  it('it eases afterwards, and the new act by counts from the call', () => {
    const life = call(new Life().find(1, finding()), 30).find(31, finding({ urgency: 'within-24h' }))
    expect(life.only).toMatchObject({ urgency: 'within-24h', since: hour(30), actBy: hour(54) })
    expect(life.steps).toEqual(['opened', 'eased'])
  })

  it('what rises after a call has not been spoken about', () => {
    const life = call(new Life().find(1, finding({ urgency: 'within-24h' })), 2).find(
      3,
      finding({ urgency: 'within-1h' }),
    )
    expect(life.only.spokenAt).toBeNull()
    expect(life.find(4, finding({ urgency: 'within-24h' })).only.urgency).toBe('within-1h')
  })
})

describe('when the evidence ends', () => {
  it.each(['at-once', 'within-1h'] as const)('a call is owed for %s, in its place', (urgency) => {
    const life = new Life().find(1, finding({ urgency })).find(2)
    expect(life.only).toMatchObject({ state: 'owed', urgency, since: hour(0) })
    expect(life.find(3).find(400).only.state).toBe('owed')
    expect(life.steps).toEqual(['opened', 'owed'])
  })

  it.each(['within-24h', 'within-3d'] as const)('%s ends by itself', (urgency) => {
    const life = new Life().find(1, finding({ urgency })).find(2)
    expect(life.only).toMatchObject({ state: 'ended', endedAt: hour(2) })
  })

  it('what was within an hour and eased to a day is owed still', () => {
    const life = new Life()
      .find(1, finding())
      .find(2, finding({ urgency: 'within-24h' }))
      .find(3)
    expect(life.only.state).toBe('owed')
  })

  it('nothing is owed once somebody has spoken to the patient', () => {
    expect(call(new Life().find(1, finding()), 2).find(3).only.state).toBe('ended')
  })

  it('an owed flag holds again without losing its place', () => {
    const life = new Life()
      .find(1, finding())
      .find(2)
      .find(3, finding({ since: hour(3), urgency: 'within-24h' }))
    expect(life.only).toMatchObject({ state: 'open', urgency: 'within-1h', actBy: hour(1) })
    expect(life.steps).toEqual(['opened', 'owed', 'held-again'])
  })

  it('an ended finding that holds again is another flag', () => {
    const life = new Life()
      .find(1, finding({ urgency: 'within-3d' }))
      .find(2)
      .find(3, finding({ urgency: 'within-3d' }))
    expect(life.flags.map(({ state }) => state)).toEqual(['ended', 'open'])
  })
})

describe('a call that reached somebody', () => {
  it('closes what it names, and what was owed', () => {
    const life = new Life()
      .find(1, finding(), finding({ drain: 'd2' }), finding({ drain: 'd3' }))
      .find(2, finding(), finding({ drain: 'd3' }))
    call(life, 3, { closes: ['f1'], lookAgainAt: 9 })
    expect(life.flags.map(({ state }) => state)).toEqual(['closed', 'closed', 'open'])
    expect(life.flags.map(({ lookAgainAt }) => lookAgainAt)).toEqual([hour(9), null, null])
    expect(life.flags.every(({ spokenAt }) => spokenAt === hour(3))).toBe(true)
  })

  it('needs a time to look again for what holds within an hour or sooner', () => {
    const { flags } = new Life().find(1, finding())
    const attempt = { at: hour(2), by: 'nurse', closes: ['f1'], lookAgainAt: null, why: '' }
    expect(closingFaults(flags, attempt)).toMatchObject([{ field: 'lookAgainAt' }])
    expect(closingFaults(flags, { ...attempt, lookAgainAt: hour(9) })).toEqual([])
  })

  it('needs none for what is owed or can wait', () => {
    const { flags } = new Life()
      .find(1, finding(), finding({ code: 'leak', urgency: 'within-24h' }))
      .find(2, finding({ code: 'leak', urgency: 'within-24h' }))
    expect(
      closingFaults(flags, { at: hour(2), by: 'n', closes: ['f1', 'f2'], lookAgainAt: null, why: '' }),
    ).toEqual([])
  })

  it('is refused for a flag that does not stand, with those that do', () => {
    const { flags } = closedAt2().find(3, finding(), finding({ code: 'leak' }))
    const faults = closingFaults(flags, {
      at: hour(4),
      by: 'n',
      closes: ['f1', 'f9'],
      lookAgainAt: hour(9),
      why: '',
    })
    expect(faults.map(({ field, message }) => [field, message])).toEqual([
      ['closes[0]', 'names no standing flag; accepted: f2'],
      ['closes[1]', 'names no standing flag; accepted: f2'],
    ])
  })
})

describe('a closed flag', () => {
  it('stays closed while the finding holds as it did', () => {
    expect(closedAt2().find(3, finding()).find(10, finding()).only.state).toBe('closed')
  })

  it('comes back with a higher urgency', () => {
    const life = closedAt2().find(5, finding({ urgency: 'at-once', since: hour(5) }))
    expect(life.only).toMatchObject({
      state: 'open',
      urgency: 'at-once',
      since: hour(5),
      actBy: hour(5),
      spokenAt: null,
    })
    expect(life.steps).toEqual(['opened', 'closed', 'returned'])
  })

  it('comes back with a lower output, its hour counted from then', () => {
    const before = finding({ evidence: [evidence('net output', 140, 0)] })
    const life = call(new Life().find(1, before), 2, { closes: ['f1'], lookAgainAt: 90 })
    expect(life.find(3, before).only.state).toBe('closed')
    expect(life.find(4, finding({ evidence: [evidence('net output', 150, 4)] })).only.state).toBe('closed')
    expect(life.find(5, finding({ evidence: [evidence('net output', 90, 5)] })).only).toMatchObject({
      state: 'open',
      actBy: hour(6),
    })
  })

  it('comes back with a higher temperature, and not with a lower', () => {
    const fever = (celsius: number, at: number) =>
      finding({
        code: 'infection-signs',
        drain: null,
        evidence: [evidence('temperature', celsius, at, 'Cel')],
      })
    const life = call(new Life().find(1, fever(38.4, 0)), 2, { closes: ['f1'], lookAgainAt: 90 })
    expect(life.find(3, fever(38.2, 3)).only.state).toBe('closed')
    expect(life.find(4, fever(38.9, 4)).only.state).toBe('open')
  })

  it('does not come back by other numbers over the same evidence', () => {
    const life = call(new Life().find(1, finding({ evidence: [evidence('net output', 140, 0)] })), 2, {
      closes: ['f1'],
      lookAgainAt: 90,
    })
    expect(life.find(3, finding({ evidence: [evidence('net output', 130, 0)] })).only.state).toBe('closed')
  })

  it('of a lower urgency stays closed', () => {
    expect(closedAt2().find(3, finding({ urgency: 'within-24h' })).only.state).toBe('closed')
  })

  it('had ended and holds again: the row is back, as a flag of its own', () => {
    const life = closedAt2()
      .find(3)
      .find(4, finding({ since: hour(4) }))
    expect(life.flags.map(({ state }) => state)).toEqual(['closed', 'open'])
    expect(life.standing[0]).toMatchObject({ actBy: hour(5), spokenAt: null })
  })

  it('comes back at its time to look again while the finding holds', () => {
    expect(closedAt2().find(19.9, finding()).only.state).toBe('closed')
    const life = closedAt2().find(20, finding())
    expect(life.only).toMatchObject({ state: 'open', since: hour(20), actBy: hour(21) })
  })

  it('comes back at its time to look again whatever the rules say', () => {
    const life = closedAt2().find(3).find(20)
    expect(life.only).toMatchObject({ state: 'owed', urgency: 'within-1h', actBy: hour(21) })
    expect(call(life.find(30), 31).only.state).toBe('closed')
    expect(life.find(60).only.state).toBe('closed')
  })

  it('of a day too, and then it waits for somebody to speak to the patient', () => {
    const mild = finding({ urgency: 'within-24h' })
    const life = call(new Life().find(1, mild), 2, { closes: ['f1'], lookAgainAt: 20 })
      .find(3)
      .find(20)
    expect(life.only.state).toBe('owed')
    expect(life.find(21, mild).find(22).only.state).toBe('owed')
  })

  it('hands its promise to a flag that stands by then', () => {
    const mild = finding({ urgency: 'within-24h' })
    const life = call(new Life().find(1, mild), 2, { closes: ['f1'], lookAgainAt: 20 })
      .find(3)
      .find(10, mild)
      .find(20, mild)
    expect(life.standing).toHaveLength(1)
    expect(life.find(21).standing[0]).toMatchObject({ id: 'f2', state: 'owed' })
  })

  it('does not come back twice for one promise', () => {
    const life = call(closedAt2().find(20, finding()), 21, { closes: ['f1'], lookAgainAt: 40 })
    expect(life.find(30, finding()).only.state).toBe('closed')
    expect(life.find(40, finding()).only.state).toBe('open')
  })
})
