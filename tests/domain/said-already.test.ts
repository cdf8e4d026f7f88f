import { describe, expect, it } from 'vitest'
import type { Flag } from '../../lib/domain/flag.ts'
import { notSaidAlready } from '../../lib/domain/said-already.ts'

const flag = (code: Flag['code'], drain: string | null, state: Flag['state'] = 'open') => ({
  code,
  drain,
  state,
})
const left = flag('blocked-and-infected', 'left')

describe('what another finding has said already', () => {
  it('is the fever, and that the same drain no longer drains', () => {
    const standing = [
      left,
      flag('infection-signs', null),
      flag('output-stopped', 'left'),
      flag('leak', 'left'),
    ]
    expect(notSaidAlready(standing).map(({ code }) => code)).toEqual(['blocked-and-infected', 'leak'])
  })
  it('is nothing of another drain, nor what a drain’s own fluid or skin shows', () => {
    const standing = [left, flag('output-decline', 'right'), flag('infection-signs', 'left')]
    expect(notSaidAlready(standing)).toEqual(standing)
  })
  it('is nothing that outlasts it: what holds is said where it is only owed', () => {
    const owed = flag('blocked-and-infected', 'left', 'owed')
    const standing = [owed, flag('output-stopped', 'left'), flag('infection-signs', null)]
    expect(notSaidAlready(standing)).toEqual(standing)
  })
})
