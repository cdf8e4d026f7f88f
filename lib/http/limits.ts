import { createHash } from 'node:crypto'
import { RateLimiterMemory } from 'rate-limiter-flexible'
import { Refusal } from '../domain/problem.ts'

const perMinute = Number(process.env.OUTFLOW_REPORTS_PER_MINUTE ?? 1200)
const MINUTE = 60

/** How often a thing may be done, per key, within so many seconds. In memory: one process serves. */
const rules = {
  /** One account: guesses at its password. A sign-in that succeeds gives its count back. */
  'sign-in-account': { points: 10, duration: 15 * MINUTE },
  'sign-in-address': { points: 100, duration: 15 * MINUTE },
  /** Letters to one address, and requests for letters from one. */
  'reset-account': { points: 3, duration: 60 * MINUTE },
  'reset-address': { points: 20, duration: 60 * MINUTE },
  'set-password': { points: 30, duration: 15 * MINUTE },
  'open-link': { points: 60, duration: MINUTE },
  'check-in': { points: 60, duration: MINUTE },
  'system-unknown': { points: 30, duration: MINUTE },
  'system-reports': { points: perMinute, duration: MINUTE },
} as const
export type Limit = keyof typeof rules

const KEY = Symbol.for('outflow.limits')
const shared = globalThis as typeof globalThis & { [KEY]?: Map<Limit, RateLimiterMemory> }

function limiter(limit: Limit): RateLimiterMemory {
  shared[KEY] ??= new Map()
  const known = shared[KEY].get(limit)
  if (known) return known
  const made = new RateLimiterMemory({ keyPrefix: limit, ...rules[limit] })
  shared[KEY].set(limit, made)
  return made
}

/** What is counted is a hash: the counts hold no address and no token. */
const counted = (key: string) => createHash('sha256').update(key).digest('base64url')

/**
 * Counts one use; counting and judging are one step, so that uses at once cannot all slip through.
 * @throws Refusal too-many
 */
export async function spend(limit: Limit, key: string): Promise<void> {
  try {
    await limiter(limit).consume(counted(key))
  } catch (error) {
    if (error instanceof Error) throw error
    const { msBeforeNext = 60_000, consumedPoints = 0 } = error as {
      msBeforeNext?: number
      consumedPoints?: number
    }
    throw new TooMany(Math.ceil(msBeforeNext / 1000), consumedPoints === rules[limit].points + 1)
  }
}

/** Gives a use back: what it was counted for turned out to be rightful. */
export async function giveBack(limit: Limit, key: string): Promise<void> {
  await limiter(limit).reward(counted(key), 1)
}

/** Forgets all counts: for tests. */
export const forgetCounts = (): void => {
  delete shared[KEY]
}

/** Refused for now, with the seconds after which it is worth another try. `isFirst`: the limit was passed by this very use. */
export class TooMany extends Refusal {
  constructor(
    readonly seconds: number,
    readonly isFirst = false,
  ) {
    super(
      'too-many',
      `Too many tries. Wait ${seconds > 90 ? `${Math.ceil(seconds / 60)} minutes` : `${seconds} seconds`}, then try again.`,
    )
  }
}
