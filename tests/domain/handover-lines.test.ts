import { describe, expect, it } from 'vitest'
import type { Handover, HandoverEntry } from '../../lib/domain/handover.ts'
import {
  agreedText,
  answersFor,
  byWhen,
  dueText,
  findingTexts,
  signatures,
  tryText,
} from '../../lib/domain/handover-lines.ts'

const read = { asOf: '2026-11-24T14:30:00Z', zone: 'America/Denver' }
const handover: Handover = {
  id: 'h',
  openedAt: '2026-11-24T14:00:00Z',
  givenBy: { id: 'a', name: 'Nora Invented' },
  givenAt: '2026-11-24T14:20:00Z',
  takenBy: null,
  takenAt: null,
  note: '',
}
const entry: HandoverEntry = {
  patientId: 'p',
  name: 'Ada Invented',
  birthDate: '1960-05-17',
  recordNumber: 'LF-1',
  phone: null,
  timeZone: 'America/New_York',
  urgency: 'within-1h',
  actBy: '2026-11-24T13:30:00Z',
  overdue: true,
  part: 'clinical',
  drains: ['left kidney', 'right kidney'],
  findings: [
    { code: 'leak', drain: 'left kidney', says: 'Leak at the site.', owed: true },
    { code: 'infection-signs', drain: null, says: 'Chills.', owed: false },
  ],
  lookAgainWhy: null,
  tried: [],
  agreed: null,
  due: [],
  holder: null,
  needs: true,
  isNew: false,
  accepted: null,
  newsSince: false,
}

describe('the lines of a handover', () => {
  it('say by when to act, how long over, and the patient’s own hour', () => {
    expect(byWhen(entry, read)).toEqual({
      label: 'Within 1 hour',
      by: 'by 06:30, 1 h over (their time 08:30)',
    })
  })

  it('say what was tried, agreed and comes due', () => {
    const tried = {
      at: '2026-11-24T14:10:00Z',
      by: 'Ben',
      direction: 'we-called',
      outcome: 'no-answer',
      spokenTo: null,
      note: 'rang out',
    }
    expect(tryText(tried as never, read)).toBe('07:10 no answer, Ben. “rang out”')
    const agreed = {
      at: '2026-11-23T14:10:00Z',
      by: 'Ben',
      agreed: ['imaging' as const],
      lookAgainAt: '2026-11-24T22:00:00Z',
      note: '',
    }
    expect(agreedText(agreed, read)).toBe('Mon 07:10 Ben: imaging. Look again 15:00.')
    expect(dueText({ at: '2026-11-25T01:00:00Z', what: 'exchange' }, read)).toBe('exchange booked 18:00')
    expect(findingTexts(entry)).toEqual([
      'Left kidney: Leak at the site. Over by now, but nobody has spoken to them.',
      'Chills.',
    ])
  })

  it('say with whom a row is: whoever accepted it, else whoever gave', () => {
    expect(answersFor(entry, handover, read)).toBe('Nobody has accepted it: it stays with Nora Invented.')
    expect(answersFor(entry, null, read)).toBeNull()
    const accepted = { by: { id: 'b', name: 'Ben' }, at: '2026-11-24T14:25:00Z' }
    expect(answersFor({ ...entry, accepted, newsSince: true }, handover, read)).toBe(
      'Accepted by Ben, 07:25. Something new came since: read it again.',
    )
    expect(signatures(handover, read.zone)).toEqual([
      'Given by Nora Invented: signed Tue 24 Nov, 07:20',
      'Taken by: nobody has signed yet',
    ])
  })
})
