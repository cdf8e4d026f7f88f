import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { applyCall, closingFaults } from '../../lib/assessment/flag-call.ts'
import { urgencyRank } from '../../lib/domain/words.ts'
import type { KeptFlag } from '../../lib/store/flags.ts'
import { evidence, finding, hour, Life } from './flags.ts'

const urgency = fc.constantFrom('at-once', 'within-1h', 'within-24h', 'within-3d')
const found = fc.record({
  drain: fc.constantFrom('d1', 'd2'),
  urgency,
  since: fc.nat(3),
  volume: fc.nat(200),
})
const event = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.record({
      type: fc.constant('rules'),
      findings: fc.uniqueArray(found, { selector: (f) => f.drain, maxLength: 2 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant('call'),
      named: fc.array(fc.nat(3), { maxLength: 3 }),
      look: fc.option(fc.integer({ min: 1, max: 8 })),
    }),
  },
)
type Happening = {
  type: string
  findings?: { drain: string; urgency: string; since: number; volume: number }[]
  named?: number[]
  look?: number | null
}

const isPressing = (flag: KeptFlag) => urgencyRank[flag.urgency] >= 3

/** Plays what happens, an hour each, and looks after each step. */
function play(
  happenings: readonly Happening[],
  look: (before: KeptFlag[], life: Life, at: number, isCall: boolean) => void,
): void {
  const life = new Life()
  happenings.forEach((happening, at) => {
    const before = life.flags
    const isCall = happening.type === 'call'
    if (isCall) {
      const standing = life.standing
      const closes = [...new Set((happening.named ?? []).flatMap((i) => standing[i]?.id ?? []))]
      const lookAgainAt = happening.look == null ? null : hour(at + happening.look)
      const call = { at: hour(at), by: 'nurse', closes, lookAgainAt, why: '' }
      if (closingFaults(life.flags, call).length === 0) life.take(applyCall(life.flags, call))
    } else {
      const findings = (happening.findings ?? []).map((f) =>
        finding({
          drain: f.drain,
          urgency: f.urgency as 'at-once',
          since: hour(at - f.since),
          evidence: [evidence('net output', f.volume, at)],
        }),
      )
      life.find(at, ...findings)
    }
    look(before, life, at, isCall)
  })
}

const stands = (flag: KeptFlag) => flag.state === 'open' || flag.state === 'owed'
const runs = fc.array(event, { maxLength: 30 }) as fc.Arbitrary<Happening[]>

describe('whatever happens', () => {
  it('no flag of within an hour or sooner leaves the worklist without a call that reached somebody', () => {
    fc.assert(
      fc.property(runs, (happenings) => {
        play(happenings, (before, life, _at, isCall) => {
          for (const flag of before.filter((f) => stands(f) && isPressing(f) && f.spokenAt === null)) {
            const after = life.flags.find(({ id }) => id === flag.id)
            if (!after || !stands(after)) expect(isCall && after?.closedBy === 'nurse').toBe(true)
          }
        })
      }),
      { numRuns: 400 },
    )
  })

  it('a finding that holds is on the worklist, or was closed by somebody', () => {
    fc.assert(
      fc.property(runs, (happenings) => {
        play(happenings, (_before, life, at, isCall) => {
          const now = happenings[at]
          if (isCall || !now?.findings) return
          for (const f of now.findings) {
            const own = life.flags.filter(({ drain }) => drain === f.drain)
            const held = own.filter((flag) => stands(flag) || (flag.state === 'closed' && flag.holdsStill))
            expect(held).toHaveLength(1)
            if (held[0]?.state === 'closed') {
              expect(held[0].closedBy).toBe('nurse')
              expect(urgencyRank[f.urgency as 'at-once']).toBeLessThanOrEqual(
                urgencyRank[held[0].closedFinding?.urgency ?? 'none'],
              )
              expect(held[0].lookAgainAt === null || held[0].lookAgainAt > hour(at)).toBe(true)
            }
          }
        })
      }),
      { numRuns: 400 },
    )
  })

  it('until somebody has spoken to the patient urgency does not fall, nor act by move later at the same urgency', () => {
    fc.assert(
      fc.property(runs, (happenings) => {
        play(happenings, (before, life, _at, isCall) => {
          if (isCall) return
          for (const flag of before.filter((f) => stands(f) && f.spokenAt === null)) {
            const after = life.flags.find(({ id }) => id === flag.id)
            if (!after || !stands(after)) continue
            expect(urgencyRank[after.urgency]).toBeGreaterThanOrEqual(urgencyRank[flag.urgency])
            if (after.urgency === flag.urgency) expect(after.actBy <= flag.actBy).toBe(true)
          }
        })
      }),
      { numRuns: 400 },
    )
  })

  it('every promise to look again brings a row back at its time, unless a call reached somebody by then', () => {
    fc.assert(
      fc.property(runs, (happenings) => {
        play(happenings, (before, life, at, isCall) => {
          if (isCall) return
          for (const { drain, lookAgainAt } of before) {
            const own = before.filter((f) => f.drain === drain)
            const due = own.some((f) => f.state === 'closed' && f.lookAgainAt === lookAgainAt)
            if (!due || lookAgainAt === null || lookAgainAt > hour(at)) continue
            const kept = own.some((f) => f.spokenAt !== null && f.spokenAt >= lookAgainAt)
            if (!kept) expect(life.standing.some((flag) => flag.drain === drain)).toBe(true)
          }
        })
      }),
      { numRuns: 400 },
    )
  })
})
