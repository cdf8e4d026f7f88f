import { expect, it } from 'vitest'
import { emphasis } from '@/lib/domain/emphasis.ts'

it.each([
  ['Net output 140 mL in the 24 h to Tue 24 Nov, 06:50, 34% of the usual 410 mL/day.', 'Net output 140 mL'],
  ['Temperature 38.4 °C reported Tue 24 Nov, 17:43 (limit 38 °C).', 'Temperature 38.4 °C'],
  [
    'The drain was reported out Tue 24 Nov, 17:51; its tract can close within hours.',
    'The drain was reported out',
  ],
  [
    'The flush of Tue 24 Nov, 17:46 was reported blocked.',
    'The flush of Tue 24 Nov, 17:46 was reported blocked.',
  ],
  ['Cloudy fluid in the drain, reported Tue 24 Nov, 17:35.', 'Cloudy fluid in the drain'],
  ['Nothing logged since Mon 23 Nov, 06:36; a log is ordered every 24 h.', 'Nothing logged'],
  ['', ''],
])('of %j the eye meets %j', (says, lead) => {
  const [first, rest] = emphasis(says)
  expect(first).toBe(lead)
  expect(first + rest).toBe(says)
})
