import { type Moves, moveFlags } from '../../lib/assessment/flag-life.ts'
import type { Evidence, Finding } from '../../lib/domain/assessment.ts'
import { urgencyHours } from '../../lib/domain/words.ts'
import type { KeptFlag } from '../../lib/store/flags.ts'

const START = Date.parse('2026-03-02T12:00:00.000Z')

/** The instant so many hours after noon of an invented day. */
export const hour = (hours: number): string => new Date(START + hours * 3_600_000).toISOString()

type Sketch = Partial<Finding> & { at?: number }

/** A finding, by default output-decline of drain d1, within an hour since hour 0. */
export function finding({ at = 0, ...rest }: Sketch = {}): Finding {
  const urgency = rest.urgency ?? 'within-1h'
  const since = rest.since ?? hour(at)
  const made: Finding = {
    code: 'output-decline',
    drain: 'd1',
    nature: 'clinical',
    urgency,
    since,
    actBy: new Date(Date.parse(since) + (urgencyHours[urgency] ?? 0) * 3_600_000).toISOString(),
    says: 'Net output 140 mL in 24 h.',
    ends: 'It ends when more comes.',
    evidence: [],
    threshold: { name: 'declineRatio', value: 0.5, unit: null, source: 'a test', confidence: 'local choice' },
    ...rest,
  }
  return Object.freeze(made)
}

export const evidence = (what: string, value: number, at: number, unit = 'mL'): Evidence => ({
  report: `r${at}`,
  at: hour(at),
  what,
  value,
  unit,
})

/** The flags of one patient over a made-up time. */
export class Life {
  flags: KeptFlag[] = []
  steps: string[] = []
  #count = 0

  /** The rules find this at that hour. */
  find(at: number, ...findings: Finding[]): this {
    const living = this.flags.filter(
      ({ state, holdsStill, lookAgainAt }) =>
        state !== 'ended' && (state !== 'closed' || holdsStill || lookAgainAt !== null),
    )
    for (const flag of living) Object.freeze(flag)
    this.take(moveFlags('p1', Object.freeze(living), findings, hour(at), () => `f${++this.#count}`))
    return this
  }

  take({ flags, steps }: Moves): void {
    const moved = new Map(flags.map((flag) => [flag.id, flag]))
    const known = this.flags.map((flag) => moved.get(flag.id) ?? flag)
    const ids = new Set(known.map(({ id }) => id))
    this.flags = [...known, ...flags.filter(({ id }) => !ids.has(id))]
    this.steps.push(...steps.map(({ kind }) => kind))
  }

  get standing(): KeptFlag[] {
    return this.flags.filter(({ state }) => state === 'open' || state === 'owed')
  }

  get only(): KeptFlag {
    const [flag, ...others] = this.flags
    if (!flag || others.length > 0) throw new Error(`${this.flags.length} flags`)
    return flag
  }
}
