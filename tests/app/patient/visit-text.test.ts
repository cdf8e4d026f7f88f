import { expect, it } from 'vitest'
import { isOpenVisit, visitText } from '@/app/ui/patient/visit-text.ts'
import type { PageVisit } from '@/lib/domain/patient-page.ts'
import { NOW, page } from '../fixtures/page.ts'

const visit = (part: Partial<PageVisit> = {}): PageVisit => ({
  id: 'v1',
  drain: 'd1',
  kind: 'exchange',
  state: 'booked',
  bookedFor: '2026-11-24T17:00:00Z',
  changedAt: NOW,
  changedBy: 'J. Sund (invented)',
  why: null,
  ...part,
})
const text = (part: Partial<PageVisit> = {}, now = Date.parse(NOW)) => visitText(visit(part), page(), now)

it('says of which drain, what and when, and that it has passed', () => {
  expect(text()).toBe('Left kidney: exchange booked Tue 24 Nov, 10:00')
  expect(text({}, Date.parse('2026-11-24T17:00:00Z'))).toBe(
    'Left kidney: exchange booked Tue 24 Nov, 10:00; it has passed',
  )
  expect(text({ kind: 'removal', state: 'requested', bookedFor: null })).toBe(
    'Left kidney: removal requested',
  )
  expect(text({ state: 'cancelled' })).toBe('Left kidney: exchange called off')
})

it('is open while it is requested or booked', () => {
  const open = (['requested', 'booked', 'done', 'cancelled'] as const).filter((state) =>
    isOpenVisit({ state }),
  )
  expect(open).toEqual(['requested', 'booked'])
})
