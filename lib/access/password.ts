import { hash, verify } from '@node-rs/argon2'
import { ZxcvbnFactory } from '@zxcvbn-ts/core'
import { adjacencyGraphs, dictionary } from '@zxcvbn-ts/language-common'

/** Shortest password where nothing but the password is asked (NIST SP 800-63B-4, ASVS 6.2.1), and the longest taken. */
export const PASSWORD_MIN = 15
export const PASSWORD_MAX = 128
/** Of the estimator's 0 to 4; 4 means over 10^10 guesses. Leaked and common passwords, keyboard walks and repeats fall below. */
const LEAST_SCORE = 4

/** argon2id (the library's default kind) with 19 MiB, 2 passes and 1 lane: the least of the OWASP password storage sheet. */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 }

export const hashPassword = (password: string): Promise<string> => hash(password, COST)

/** False for a wrong password, and for a hash that cannot be read. */
export const verifyPassword = (stored: string, password: string): Promise<boolean> =>
  verify(stored, password).catch(() => false)

let estimator: ZxcvbnFactory | undefined

/**
 * Why a password is not taken, or null. No rules of composition and no expiry: length, and that nobody guesses it.
 * `about` are words that an attacker knows of this person: name, e-mail address, clinic.
 */
export function passwordTrouble(password: string, about: readonly string[] = []): string | null {
  if ([...password].length < PASSWORD_MIN)
    return `accepted: at least ${PASSWORD_MIN} characters; a few words that belong together nowhere are easiest`
  if (password.length > PASSWORD_MAX) return `accepted: at most ${PASSWORD_MAX} characters`
  estimator ??= new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs })
  const known = [...about, ...about.flatMap((text) => text.split(/[^\p{L}\p{N}]+/u)), 'outflow round'].filter(
    (word) => word.length > 2,
  )
  if (estimator.check(password, known).score < LEAST_SCORE)
    return 'is easily guessed: it is common, repeats itself, or follows the keyboard; accepted: a few words that belong together nowhere'
  return null
}
