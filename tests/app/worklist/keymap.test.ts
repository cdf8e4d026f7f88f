import { describe, expect, it } from 'vitest'
import { actionOf, type KeyAction, keyOf, nextOf, stepFrom } from '@/app/ui/worklist/keymap.ts'

const actions: KeyAction[] = [
  ...(['down', 'up', 'open', 'take', 'give-back', 'call', 'next-at-once', 'first-free', 'show-new'] as const),
  ...(['find', 'upkeep', 'all', 'at-once', 'within-1h', 'within-24h', 'within-3d'] as const),
]

describe('the keys of the worklist', () => {
  it.each(actions)('have one for %s, and the control shows that one', (action) => {
    const shown = keyOf(action)
    expect(shown).not.toBe('')
    expect(actionOf(shown === 'Space' ? ' ' : shown)).toBe(action)
  })
  it('lie under the left hand', () => {
    for (const action of actions) expect(keyOf(action)).toMatch(/^([QWEASDFZXC0-4]|Space)$/)
  })
  it('take no other key, also none of the language', () => {
    for (const key of ['p', 'Tab', 'Enter', 'constructor', 'toString']) expect(actionOf(key)).toBeNull()
  })
})

it('a step goes to the next row, from nowhere to an end, and over no end', () => {
  const ids = ['a', 'b', 'c']
  expect(stepFrom(ids, 'a', 1)).toBe('b')
  expect(stepFrom(ids, 'c', 1)).toBe('c')
  expect(stepFrom(ids, null, 1)).toBe('a')
  expect(stepFrom(ids, 'gone', -1)).toBe('c')
  expect(stepFrom([], null, 1)).toBeNull()
})

it('the next of a sort goes round the end', () => {
  const isOne = (id: string) => id === 'a' || id === 'c'
  expect(nextOf(['a', 'b', 'c', 'd'], 'a', isOne)).toBe('c')
  expect(nextOf(['a', 'b', 'c', 'd'], 'c', isOne)).toBe('a')
  expect(nextOf(['a', 'b'], 'a', isOne)).toBe('a')
  expect(nextOf(['b'], null, isOne)).toBeNull()
})
