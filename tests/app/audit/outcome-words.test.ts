import { describe, expect, it } from 'vitest'
import { answerBody, emptyEvent, eventFaults } from '../../../app/ui/audit/outcomes/draft.ts'
import { dueText, fileText, matchText } from '../../../app/ui/audit/outcomes/words.ts'

describe('what became of a patient, in words', () => {
  it('says who found an event and how far ahead, or that it was missed, beside the silence', () => {
    const match = { event: 'e', flagId: 'f', hoursAhead: 14, hoursSinceHeard: 2.5 }
    expect(matchText({ match, found: 'Output stopped' })).toBe(
      'Output stopped, 14 h ahead; last heard 2 h 30 min before',
    )
    expect(
      matchText({ match: { ...match, flagId: null, hoursAhead: null, hoursSinceHeard: null }, found: null }),
    ).toBe('missed: no flag that answers it in the 7 days before; never heard before it')
  })

  it('counts days and lines', () => {
    expect(dueText({ since: '2026-03-02T10:00:00Z' }, '2026-03-02T20:00:00Z')).toBe('today')
    expect(dueText({ since: '2026-03-02T10:00:00Z' }, '2026-03-03T20:00:00Z')).toBe('for 1 day')
    const file = {
      ...{ dryRun: true, lines: 3, patients: 1, events: 2, ends: 0, repeated: 1, faults: [] },
      takenAt: null,
    }
    expect(fileText(file, 'UTC')).toBe('3 lines: 2 events of 1 patient new; 1 on record already.')
    expect(fileText({ ...file, takenAt: '2026-03-02T10:00:00Z' }, 'UTC')).toMatch(/adds nothing/)
  })

  it('says of whom a file ends follow-up, before it is taken in and after', () => {
    const file = {
      ...{ dryRun: true, lines: 3, patients: 2, events: 2, ends: 2, repeated: 0, faults: [] },
      takenAt: null,
    }
    expect(fileText(file, 'UTC')).toBe(
      '3 lines: 2 events of 2 patients new. Taken in, it ends follow-up of 2 patients who died. Every message stops at once. To undo this takes two people: one who asks, another who confirms.',
    )
    expect(fileText({ ...file, dryRun: false, ends: 1 }, 'UTC')).toBe(
      'Taken in: 2 events of 2 patients. Follow-up of 1 patient who died has ended.',
    )
  })
})

describe('an event as it is typed', () => {
  it('needs what and when, in the patient’s zone', () => {
    const event = emptyEvent('1')
    expect(Object.keys(eventFaults(event, 'America/Denver'))).toEqual(['kind', 'at'])
    const whole = { ...event, kind: 'leak' as const, at: '2026-03-03T08:00', note: ' ' }
    expect(eventFaults(whole, 'America/Denver')).toEqual({})
    expect(answerBody('end', 'events', '', [whole], 'America/Denver')).toEqual({
      about: 'end',
      answer: 'events',
      note: null,
      events: [{ kind: 'leak', at: '2026-03-03T08:00:00-07:00', drain: null, note: null }],
    })
    expect(answerBody('end', 'none', 'asked her', [whole], 'America/Denver')).toEqual({
      about: 'end',
      answer: 'none',
      note: 'asked her',
    })
  })
})
