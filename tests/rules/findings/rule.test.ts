import { describe, expect, it } from 'vitest'
import { found, quiet } from '../../../lib/rules/findings/rule.ts'

describe('a verdict', () => {
  it('that found nothing is none, for good unless an instant is named, and has nothing to tell', () => {
    expect(quiet()).toMatchObject({ urgency: 'none', next: Number.POSITIVE_INFINITY })
    expect(quiet(7).next).toBe(7)
    expect(() => quiet().tell()).toThrow('nothing to tell')
  })
  it('that found something is clinical and stands until new data, unless it says otherwise', () => {
    const tell = () => ({
      says: '',
      ends: '',
      evidence: [],
      threshold: { name: '', value: 0, unit: null, source: '', confidence: 'published' as const },
    })
    expect(found('within-1h', tell)).toMatchObject({
      urgency: 'within-1h',
      nature: 'clinical',
      next: Number.POSITIVE_INFINITY,
    })
    expect(found('within-3d', tell, 9, 'upkeep')).toMatchObject({ nature: 'upkeep', next: 9 })
  })
})
