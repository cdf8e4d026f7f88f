import { describe, expect, it } from 'vitest'
import { givenBack } from '../../lib/assessment/give-back.ts'
import type { Finding } from '../../lib/domain/assessment.ts'
import type { FlagStep, FlagStepKind } from '../../lib/domain/flag.ts'
import type { KeptFlag } from '../../lib/store/flags.ts'
import { finding, hour } from './flags.ts'

type Urgency = Finding['urgency']
const RECORDED = 10

const step = (at: number, kind: FlagStepKind, urgency: Urgency): FlagStep => ({
  ...{ flagId: 'f1', at: hour(at), kind, urgency, by: null, why: 'a test' },
})

/** A flag that opened within-24h at hour 2 and was raised at hour 10 by what is now withdrawn. */
const opened = [step(2, 'opened', 'within-24h')]
function raised(to: Urgency = 'at-once'): KeptFlag {
  const own = finding({ urgency: to, at: RECORDED })
  const { code, drain, nature, urgency, since, actBy } = own
  return {
    ...{ id: 'f1', patientId: 'p1', code, drain, nature, urgency, since, actBy, finding: own },
    ...{ state: 'open', openedAt: hour(2), holdsStill: true },
    ...{
      closedAt: null,
      closedBy: null,
      closedFinding: null,
      lookAgainAt: null,
      spokenAt: null,
      endedAt: null,
    },
  }
}

function back(
  flag: KeptFlag,
  findings: Finding[],
  life: FlagStep[],
  kind: 'undone' | 'corrected' = 'corrected',
) {
  const withdrawn = { recordedAt: hour(RECORDED), by: 'nurse', kind, why: 'a mistake' }
  return givenBack([{ flag, steps: life }], [flag], findings, withdrawn, hour(12))
}
const life = [...opened, step(RECORDED, 'raised', 'at-once')]

describe('a flag that was raised by what is withdrawn', () => {
  it('is as urgent as before where the rules say so, at its old deadline, with a step that says who and why', () => {
    const { flags, steps } = back(raised(), [finding({ urgency: 'within-24h', at: 2 })], life)
    expect(flags).toMatchObject([{ state: 'open', urgency: 'within-24h', since: hour(2), actBy: hour(26) }])
    expect(steps).toMatchObject([{ kind: 'corrected', by: 'nurse', why: 'a mistake', urgency: 'within-24h' }])
  })

  it('is as urgent as the rules now find it, where that is more than before and less than it was raised to', () => {
    const { flags } = back(raised(), [finding({ urgency: 'within-1h', at: 11 })], life)
    expect(flags).toMatchObject([{ urgency: 'within-1h', since: hour(11), actBy: hour(12) }])
  })

  it('falls no lower than it was before, though the evidence has eased meanwhile: nobody was spoken to', () => {
    const { flags } = back(raised(), [finding({ urgency: 'within-3d', at: 2 })], life)
    expect(flags).toMatchObject([{ urgency: 'within-24h', since: hour(2), actBy: hour(26) }])
  })

  it('counts its old deadline from when that urgency began', () => {
    const earlier = [
      step(2, 'opened', 'within-3d'),
      step(5, 'raised', 'within-24h'),
      step(6, 'held-again', 'within-24h'),
    ]
    const { flags } = back(
      raised(),
      [finding({ urgency: 'within-3d', at: 2 })],
      [...earlier, step(RECORDED, 'raised', 'at-once')],
    )
    expect(flags).toMatchObject([{ urgency: 'within-24h', since: hour(5), actBy: hour(29) }])
  })

  it('is as urgent as before where its evidence is gone, so that the rules end it as they would have', () => {
    expect(back(raised(), [], life).flags).toMatchObject([{ state: 'open', urgency: 'within-24h' }])
  })

  it('stays where the rules find it as urgent by themselves, or more', () => {
    expect(back(raised('within-1h'), [finding({ urgency: 'within-1h' })], life).flags).toEqual([])
    expect(back(raised('within-1h'), [finding({ urgency: 'at-once' })], life).flags).toEqual([])
  })

  it('stays where something has moved it since', () => {
    const since = [...life, step(11, 'held-again', 'at-once')]
    expect(back(raised(), [finding({ urgency: 'within-24h' })], since).flags).toEqual([])
  })
})

describe('a flag that was opened by what is withdrawn', () => {
  const alone = [step(RECORDED, 'opened', 'at-once')]

  it('ends at once within the minute, and is left to the rules afterwards', () => {
    expect(back(raised(), [], alone, 'undone').flags).toMatchObject([{ state: 'ended', endedAt: hour(12) }])
    expect(back(raised(), [], alone).flags).toEqual([])
  })

  it('stays where it holds without it', () => {
    expect(back(raised(), [finding({ urgency: 'at-once' })], alone, 'undone').flags).toEqual([])
  })
})
