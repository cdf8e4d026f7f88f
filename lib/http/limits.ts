import { createHash } from 'node:crypto'
import { RateLimiterMemory } from 'rate-limiter-flexible'
import { Refusal } from '../domain/problem.ts'
import { refusalOf } from './problem.ts'

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
  'open-link': { points: 300, duration: MINUTE },
  /** Wrong tokens and codes from one address: slowed, then refused. */
  'link-tries': { points: 20, duration: 15 * MINUTE },
  /** Links of messages to the person on call, and wrong ones: counted apart, so that nobody else's guesses shut them. */
  'on-call': { points: 120, duration: MINUTE },
  'on-call-tries': { points: 20, duration: 15 * MINUTE },
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
  await count(limit, key)
}

/** The same, and says how many uses there were. */
async function count(limit: Limit, key: string): Promise<number> {
  try {
    return (await limiter(limit).consume(counted(key))).consumedPoints
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

/** From this many wrong tries on an answer waits: twice as long each time, up to the longest. */
const SLOW_FROM = 5
const FIRST_WAIT_MS = 250
const LONGEST_WAIT_MS = 4000

/** How long the answer to so many tries waits. */
export const waitAfter = (tries: number): number =>
  tries < SLOW_FROM ? 0 : Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (tries - SLOW_FROM))

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

/**
 * Does what may turn out to be a guess: slowed where the same caller has guessed wrong before, refused after too
 * many. Counted before it is tried, so that guesses at once cannot all slip through; only a wrong one stays counted.
 * @throws Refusal too-many, and whatever `work` throws
 */
export async function guardGuess<T>(
  limit: Limit,
  key: string,
  work: () => Promise<T>,
  wait: (ms: number) => Promise<void> = pause,
): Promise<T> {
  const tries = await count(limit, key)
  const ms = waitAfter(tries)
  if (ms > 0) await wait(ms)
  try {
    const value = await work()
    await giveBack(limit, key)
    return value
  } catch (error) {
    if (refusalOf(error)?.kind !== 'link-not-valid') await giveBack(limit, key)
    throw error
  }
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
