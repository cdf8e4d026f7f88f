import { expect, it } from 'vitest'
import { lifeOf, secondLookFrom } from '../../../lib/audit/rules/life.ts'
import type { StoredDraftStep } from '../../../lib/store/rule-drafts.ts'

const steps = (...kinds: StoredDraftStep['step'][]): StoredDraftStep[] =>
  kinds.map((step, i) => ({
    ...{ id: `s${i}`, draftId: 'd', recordedBy: 'a', step, replayId: null, why: null },
    recordedAt: `2026-03-0${i + 1}T08:00:00.000Z`,
  }))

it('a draft stands as its steps since the last change say', () => {
  expect(lifeOf(steps('written')).state).toBe('written')
  expect(lifeOf(steps('written', 'proposed')).state).toBe('proposed')
  expect(lifeOf(steps('written', 'proposed', 'approved')).approved?.id).toBe('s2')
  expect(lifeOf(steps('written', 'proposed', 'looked-again')).state).toBe('approved')
  expect(lifeOf(steps('written', 'proposed', 'approved', 'changed'))).toEqual({
    state: 'written',
    proposed: null,
    approved: null,
    ended: null,
  })
  expect(lifeOf(steps('written', 'proposed', 'approved', 'in-force')).state).toBe('in-force')
  expect(lifeOf(steps('written', 'withdrawn')).state).toBe('withdrawn')
})

it('the second look waits a day of 24 hours, over a clock change too', () => {
  const [proposed] = steps('proposed')
  expect(secondLookFrom({ ...(proposed as StoredDraftStep), recordedAt: '2026-03-08T08:30:00.000Z' })).toBe(
    '2026-03-09T08:30:00.000Z',
  )
})
