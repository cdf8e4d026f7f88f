import { describe, expect, it } from 'vitest'
import { changedThresholds, draftOfThresholds, thresholdFaults } from '@/app/ui/patient/thresholds-fields.tsx'
import { page } from '../fixtures/page.ts'

const before = draftOfThresholds({ declineRatio: 0.4 })

describe('a drain’s own thresholds', () => {
  it('only what was changed is sent, so that the others keep who set them and why', () => {
    expect(changedThresholds(before, before)).toEqual({})
    expect(changedThresholds({ ...before, feverC: '37,8' }, before)).toEqual({ feverC: 37.8 })
    expect(changedThresholds({ ...before, declineRatio: ' ' }, before)).toEqual({ declineRatio: null })
  })
  it('are held against the range of the rule set', () => {
    const { thresholds } = page()
    expect(thresholdFaults(before, thresholds)).toEqual({})
    expect(thresholdFaults({ ...before, declineRatio: '5', severePain: 'x' }, thresholds)).toEqual({
      declineRatio: 'From 0.1 to 0.9.',
      severePain: 'From 5 to 10.',
    })
  })
})
