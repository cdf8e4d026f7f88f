import { describe, expect, it } from 'vitest'
import {
  keyOfDoing,
  keyOfHarm,
  keyOfTruly,
  keyOfVerdict,
  readingKeyOf,
} from '../../../app/ui/audit/week/keys.ts'
import { Harm, Truly, Verdict } from '../../../lib/domain/review.ts'

describe('the keys of the reading', () => {
  it('do what the controls show, in small letters and capitals', () => {
    expect(readingKeyOf(keyOfVerdict('warranted-late'))).toEqual({
      does: 'verdict',
      verdict: 'warranted-late',
    })
    expect(readingKeyOf(keyOfHarm('serious'))).toEqual({ does: 'harm', harm: 'serious' })
    expect(readingKeyOf(keyOfTruly('infection'))).toEqual({ does: 'truly', truly: 'infection' })
    expect(readingKeyOf(keyOfTruly('infection').toLowerCase())).toEqual({ does: 'truly', truly: 'infection' })
    expect(readingKeyOf(keyOfDoing('next'))).toEqual({ does: 'next' })
    expect(readingKeyOf(keyOfDoing('save'))).toEqual({ does: 'save' })
  })

  it('are one for each choice and no two alike', () => {
    const all = [
      ...Verdict.options.map(keyOfVerdict),
      ...Harm.options.map(keyOfHarm),
      ...Truly.options.map(keyOfTruly),
      ...(['note', 'save', 'open', 'next', 'previous'] as const).map(keyOfDoing),
    ]
    expect(all.every((key) => key !== '')).toBe(true)
    expect(new Set(all).size).toBe(all.length)
  })

  it('are no others', () => {
    for (const key of ['Tab', 'Shift', ' ', '0', '5', 'ArrowDown', 'constructor'])
      expect(readingKeyOf(key)).toBeNull()
  })
})
