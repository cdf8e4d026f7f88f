import { expect, it } from 'vitest'
import { countByUrgency, countUpkeep } from '@/app/ui/worklist/tally.ts'
import { flag } from '../fixtures/flag.ts'
import { row } from '../fixtures/row.ts'

it('counts rows by urgency, none as 0', () => {
  expect(countByUrgency([row(), row(), row({ urgency: 'at-once' })])).toEqual({
    'at-once': 1,
    'within-1h': 2,
    'within-24h': 0,
    'within-3d': 0,
  })
})
it('counts patients by what is due, not flags', () => {
  const due = row({
    flags: [
      flag({ code: 'log-missed' }),
      flag({ code: 'log-missed', drain: 'd2' }),
      flag({ code: 'dressing-overdue' }),
    ],
  })
  expect(countUpkeep([due, row({ flags: [flag({ code: 'removal-check' })] })])).toEqual([
    { name: 'dressings', count: 1 },
    { name: 'logs', count: 1 },
    { name: 'other', count: 1 },
  ])
})
