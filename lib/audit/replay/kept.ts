import { stands } from '../../assessment/flag-life.ts'
import type { FlagStep } from '../../domain/flag.ts'
import { urgencyRank } from '../../domain/words.ts'
import type { KeptFlag } from '../../store/flags.ts'

/** A flag of a replay, with its life so far. Times in ms since the epoch. */
export type Life = {
  flag: KeptFlag
  openedMs: number
  steps: FlagStep[]
  /** When the flag was last moved, as the store would say it. */
  changedAt: string
  /** The highest urgency that it had. */
  peak: KeptFlag['urgency']
  /** From when to when it stood on the worklist; the last is open where it stands. */
  spans: { from: number; to: number | null }[]
}

const isLiving = ({ state, holdsStill, lookAgainAt }: KeptFlag) =>
  state === 'open' || state === 'owed' || (state === 'closed' && (holdsStill || lookAgainAt !== null))

/** The flags of one patient, as the store would keep them. */
export class Kept {
  private readonly lives: Map<string, Life>
  /** Kept up, since most of a long record’s flags are over: by id, in the order in which they opened. */
  private alive: Map<string, KeptFlag>
  private inOrder: KeptFlag[] | null = null
  private waiting: number[] | null = null

  constructor(lives: ReadonlyMap<string, Life> = new Map()) {
    this.lives = new Map(lives)
    this.alive = this.findAlive()
  }

  /** The same flags, to go on by themselves. */
  fork(): Kept {
    const copies = [...this.lives].map(([id, life]): [string, Life] => [
      id,
      { ...life, steps: [...life.steps], spans: life.spans.map((span) => ({ ...span })) },
    ])
    return new Kept(new Map(copies))
  }

  get all(): Life[] {
    return [...this.lives.values()]
  }

  get flags(): KeptFlag[] {
    return this.all.map(({ flag }) => flag)
  }

  /** Those whose life can still move, in the order in which they opened. */
  get living(): readonly KeptFlag[] {
    this.inOrder ??= [...this.alive.values()]
    return this.inOrder
  }

  private findAlive(): Map<string, KeptFlag> {
    return new Map(this.flags.filter(isLiving).map((flag) => [flag.id, flag]))
  }

  /** When closed flags are to be looked at again, in ms since the epoch. */
  get promises(): readonly number[] {
    this.waiting ??= this.living.flatMap(({ state, lookAgainAt }) =>
      state === 'closed' && lookAgainAt !== null ? [Date.parse(lookAgainAt)] : [],
    )
    return this.waiting
  }

  of(id: string): Life | undefined {
    return this.lives.get(id)
  }

  /** Keeps flags as they now are, with the steps that led there. */
  save(flags: readonly KeptFlag[], steps: readonly FlagStep[], at: string): void {
    if (flags.length > 0) {
      this.inOrder = null
      this.waiting = null
    }
    let hasRisen = false
    for (const flag of flags) {
      const known = this.lives.get(flag.id)
      const life = known ?? {
        flag,
        openedMs: Date.parse(flag.openedAt),
        steps: [],
        changedAt: at,
        peak: flag.urgency,
        spans: [],
      }
      this.lives.set(flag.id, life)
      life.flag = flag
      if (!isLiving(flag)) this.alive.delete(flag.id)
      else {
        if (known && !this.alive.has(flag.id)) hasRisen = true
        this.alive.set(flag.id, flag)
      }
      life.changedAt = at
      if (urgencyRank[flag.urgency] > urgencyRank[life.peak]) life.peak = flag.urgency
      this.span(life, Date.parse(at))
    }
    // What was over and stands again has its old place.
    if (hasRisen) this.alive = this.findAlive()
    for (const step of steps) this.lives.get(step.flagId)?.steps.push(step)
  }

  private span({ flag, spans }: Life, at: number): void {
    const last = spans.at(-1)
    const isOpen = last !== undefined && last.to === null
    if (stands(flag) && !isOpen) spans.push({ from: at, to: null })
    if (!stands(flag) && isOpen) last.to = at
  }
}
