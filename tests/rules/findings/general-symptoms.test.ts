import { describe, expect, it } from 'vitest'
import { named, unusual } from '../../../lib/rules/findings/general-symptoms.ts'
import { drainView, record, START, symptoms } from '../../support/build.ts'

describe('unusual', () => {
  it('finds what is wanted and not usual for the person', () => {
    const of = record({}, [symptoms(5, { general: ['dizzy', 'fainted'] })], [], {
      usual: { general: ['dizzy'] },
    })
    const { view } = drainView(of, 6)
    const at = START + 6 * 3_600_000
    expect(unusual(view, at, ['dizzy']).lead).toBeNull()
    expect(unusual(view, at, ['dizzy', 'fainted']).lead?.value).toEqual(['dizzy', 'fainted'])
    expect(unusual(view, at, ['confused']).lead).toBeNull()
  })
})

describe('named', () => {
  it('reads as a sentence begins', () => {
    expect(named(['short-of-breath', 'dizzy', 'heavy-bleeding'], ['short-of-breath', 'heavy-bleeding'])).toBe(
      'Short of breath, heavy bleeding',
    )
    expect(named([], ['dizzy'])).toBe('')
  })
})
