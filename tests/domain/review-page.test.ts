import { describe, expect, it } from 'vitest'
import type { Review, Verdict } from '../../lib/domain/review.ts'
import { blindOf, standingOf, trulyFor } from '../../lib/domain/review-page.ts'

let count = 0
const review = (reading: 1 | 2 | 3, verdict: Verdict, isOpened = false): Review => ({
  id: `r${++count}`,
  itemId: 'i',
  reading,
  verdict,
  truly: null,
  harm: 'none',
  note: null,
  isOpened,
  at: '2026-03-09T10:00:00.000Z',
  byId: `reader-${reading}`,
})
const stateOf = (twice: boolean, ...reviews: Review[]) => {
  const { state, counts } = standingOf(twice, reviews)
  return [state, counts?.verdict ?? null]
}

describe('how the readings of an item stand', () => {
  it('counts a single reading, the newest verdict of it', () => {
    expect(stateOf(false)).toEqual(['unread', null])
    expect(stateOf(false, review(1, 'warranted'), review(1, 'not-warranted', true))).toEqual([
      'once',
      'not-warranted',
    ])
  })

  it('counts nothing while a second reading or a settling is awaited', () => {
    expect(stateOf(true, review(1, 'warranted'))).toEqual(['awaits-second', null])
    expect(stateOf(true, review(1, 'warranted'), review(2, 'cannot-tell'))).toEqual(['disagreed', null])
    expect(stateOf(true, review(1, 'warranted'), review(2, 'warranted'))).toEqual(['agreed', 'warranted'])
    expect(
      stateOf(true, review(1, 'warranted'), review(2, 'cannot-tell'), review(3, 'warranted-late')),
    ).toEqual(['settled', 'warranted-late'])
  })

  it('knows the last blind verdict of a reading', () => {
    const given = [review(1, 'warranted'), review(1, 'cannot-tell'), review(1, 'not-warranted', true)]
    expect(blindOf(given, 1)?.verdict).toBe('cannot-tell')
    expect(blindOf(given, 2)).toBeNull()
  })

  it('takes no change for blind that was made once both readings had been given', () => {
    const given = [
      review(1, 'warranted'),
      review(2, 'not-warranted'),
      review(1, 'not-warranted'),
      review(2, 'warranted'),
    ]
    expect([1, 2].map((reading) => blindOf(given, reading as 1 | 2)?.verdict)).toEqual([
      'warranted',
      'not-warranted',
    ])
    expect(blindOf([review(1, 'warranted'), review(2, 'warranted', true)], 2)).toBeNull()
  })
})

describe('what can really be the matter', () => {
  it('depends on what drains', () => {
    const urinary = trulyFor(['nephrostomy'])
    expect(urinary).toContain('dehydration')
    expect(urinary).not.toContain('recurrence')
    const abscess = trulyFor(['collection'])
    expect(abscess).toContain('fistula')
    expect(abscess).not.toContain('dehydration')
    expect(trulyFor(['nephrostomy', 'bulb'])).toEqual(expect.arrayContaining(['dehydration', 'recurrence']))
  })
})
