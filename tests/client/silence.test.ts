import { expect, it } from 'vitest'
import { isSilent, SILENCE_MS } from '../../lib/client/silence.ts'
import { HEARTBEAT_MS } from '../../lib/http/event-stream.ts'

it.each([
  ['heard a moment ago', 99_000, 0, false],
  ['one beat missed', 100_000 - 2 * HEARTBEAT_MS, 0, false],
  ['nothing for 8 s', 92_000, 0, true],
  ['opened a moment ago, heard long before', 20_000, 99_000, false],
  ['opened 8 s ago and nothing came', 20_000, 92_000, true],
  ['never heard', null, 99_000, false],
  ['never heard, opened 8 s ago', null, 92_000, true],
])('%s', (_, heardMs, openedMs, silent) => {
  expect(isSilent(heardMs, openedMs, 100_000)).toBe(silent)
})

it('is longer than two beats, so that one late beat is no alarm, and found within 10 s', () => {
  expect(SILENCE_MS).toBeGreaterThan(2 * HEARTBEAT_MS)
  expect(SILENCE_MS + 1_000).toBeLessThan(10_000)
})
