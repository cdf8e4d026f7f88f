import { describe, expect, it } from 'vitest'
import { event, finding, judged, record, symptoms, times, urgency } from '../../support/build.ts'

const emergency = (of: ReturnType<typeof record>, hours: number) =>
  urgency('emergency-symptoms', of, hours, null)

describe('emergency-symptoms', () => {
  it.each(['short-of-breath', 'chest-pain', 'fainted', 'confused', 'heavy-bleeding'] as const)(
    '%s is at once, of the whole patient',
    (symptom) => {
      const of = record({}, [symptoms(10, { general: [symptom] })])
      expect(emergency(of, 11)).toBe('at-once')
      expect(times(finding('emergency-symptoms', of, 11, null))).toEqual({ since: 10, actBy: 10 })
    },
  )
  it.each(['vomiting', 'dizzy'] as const)('%s is not', (symptom) => {
    expect(emergency(record({}, [symptoms(10, { general: [symptom] })]), 11)).toBe('none')
  })
  it('is none where it is usual for the person, unless another is stated beside it', () => {
    const usual = { usual: { general: ['short-of-breath' as const] } }
    expect(emergency(record({}, [symptoms(10, { general: ['short-of-breath'] })], [], usual), 11)).toBe(
      'none',
    )
    const of = record({}, [symptoms(10, { general: ['short-of-breath', 'confused'] })], [], usual)
    expect(finding('emergency-symptoms', of, 11, null)?.says).toBe('Confused reported Mon 2 Mar, 10:00.')
  })
  it('stands without end while nothing newer is said of general symptoms', () => {
    expect(
      emergency(
        record({}, [symptoms(10, { general: ['confused'] }), symptoms(20, { temperatureC: 36.8 })]),
        500,
      ),
    ).toBe('at-once')
  })
  it('stands for 24 h after a newer statement without it, and then ends', () => {
    const of = record({}, [
      symptoms(10, { general: ['confused'] }, { received: 12 }),
      symptoms(13, { general: [] }),
    ])
    expect([emergency(of, 35.9), emergency(of, 36)]).toEqual(['at-once', 'none'])
    expect(judged(of, 20).nextCheckAt).toBe('2026-03-03T00:00:00.000Z') // never logged for 24 h comes first
  })
  it('does not hang on a drain: it stands with none, and after the removal', () => {
    expect(emergency(record([], [symptoms(10, { general: ['fainted'] })]), 11)).toBe('at-once')
    expect(emergency(record({}, [symptoms(10, { general: ['fainted'] })], [event(9, 'removed')]), 11)).toBe(
      'at-once',
    )
  })
  it('names all that the statement names', () => {
    const of = record({}, [symptoms(10, { general: ['chest-pain', 'dizzy', 'fainted'] }, { id: 'r3' })])
    const found = finding('emergency-symptoms', of, 11, null)
    expect(found?.says).toBe('Chest pain, fainted reported Mon 2 Mar, 10:00.')
    expect(found?.evidence).toMatchObject([{ report: 'r3', what: 'general', value: 'chest-pain, fainted' }])
  })
})
