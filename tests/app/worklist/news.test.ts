import { expect, it } from 'vitest'
import { newsOf } from '@/app/ui/worklist/news.ts'
import { flag } from '../fixtures/flag.ts'
import { row } from '../fixtures/row.ts'

const mine = { staffId: 's1', name: 'R. Okafor (invented)', until: '2026-11-24T15:00:00Z' }
const held = row({ hold: mine })

it('tells the holder of a new report and of a new or raised flag', () => {
  for (const change of [
    { lastHeardAt: '2026-11-24T14:40:00Z' },
    { flags: [flag(), flag({ id: 'f2', code: 'leak' })] },
    { flags: [flag({ urgency: 'at-once' })] },
    { flags: [flag({ state: 'owed' })] },
  ])
    expect(newsOf([held], [{ ...held, ...change }], 's1')).toEqual([held.name])
})
it('tells of nothing else', () => {
  expect(newsOf([held], [{ ...held, hold: { ...mine, until: '2026-11-24T15:10:00Z' } }], 's1')).toEqual([])
  expect(newsOf([held], [{ ...held, lastHeardAt: '2026-11-24T14:40:00Z' }], 's2')).toEqual([])
  expect(newsOf([row()], [held], 's1')).toEqual([])
  expect(newsOf([], [held], 's1')).toEqual([])
})
