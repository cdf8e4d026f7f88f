import { describe, expect, it } from 'vitest'
import { isAbout } from '../../../lib/commands/evaluate/matching.ts'
import type { Truth } from '../../../lib/simulate/index.ts'

const at = Date.parse('2026-03-20T12:00:00Z')
const event = (type: Truth['type'], feverFrom: string | null = null): Truth => ({
  type,
  drain: 'd1',
  onset: '2026-03-20T00:00:00Z',
  halfFrom: null,
  feverFrom,
  end: null,
  ownCall: null,
})

describe('isAbout', () => {
  it('joins a finding to events of its kind on its drain', () => {
    expect(isAbout({ code: 'output-stopped', drain: 'd1' }, event('sudden-obstruction'), at)).toBe(true)
    expect(isAbout({ code: 'output-stopped', drain: 'd2' }, event('sudden-obstruction'), at)).toBe(false)
    expect(isAbout({ code: 'output-surge', drain: 'd1' }, event('sudden-obstruction'), at)).toBe(false)
  })

  it('takes fever for true only once it is there', () => {
    expect(
      isAbout(
        { code: 'infection-signs', drain: null },
        event('sudden-obstruction', '2026-03-20T06:00:00Z'),
        at,
      ),
    ).toBe(true)
    expect(
      isAbout(
        { code: 'infection-signs', drain: null },
        event('sudden-obstruction', '2026-03-21T06:00:00Z'),
        at,
      ),
    ).toBe(false)
    expect(isAbout({ code: 'infection-signs', drain: null }, event('sudden-obstruction'), at)).toBe(false)
  })

  it('lets upkeep answer silence alone', () => {
    expect(isAbout({ code: 'log-missed', drain: 'd1' }, { ...event('silence'), drain: null }, at)).toBe(true)
    expect(isAbout({ code: 'dressing-overdue', drain: 'd1' }, { ...event('silence'), drain: null }, at)).toBe(
      false,
    )
  })
})
