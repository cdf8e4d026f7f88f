/**
 * Chance that can be had again: a stream of numbers that depends on a seed and on the names of what
 * it is for, and on nothing else. Separate streams keep patients comparable: what a nurse does in a
 * simulation never changes how much a kidney made the day before.
 *
 * Method: the keys are hashed (FNV-1a, then the finaliser of MurmurHash3) into the state of sfc32
 * (Chris Doty-Humphrey, PractRand), a small generator of 32-bit words that passes PractRand's tests.
 */
export type Random = {
  /** Uniform in [0, 1). */
  uniform(): number
  between(low: number, high: number): number
  /** Normal, by the Box–Muller transform. */
  normal(mean?: number, sd?: number): number
  chance(probability: number): boolean
  /** One of the given, each with its weight. */
  weighted<T>(choices: readonly (readonly [T, number])[]): T
}

/** @example randomFor(7, 'output', 'd1').uniform() // the same number in every run */
export function randomFor(seed: number, ...keys: readonly (string | number)[]): Random {
  const hash = hashOf(`${seed}/${keys.join('/')}`)
  let a = mix(hash)
  let b = mix(hash ^ 0x9e3779b9)
  let c = mix(hash ^ 0x85ebca6b)
  let counter = 1
  const next = () => {
    const word = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = ((c << 21) | (c >>> 11)) + word
    c |= 0
    return (word >>> 0) / 4294967296
  }
  for (let i = 0; i < 12; i++) next()

  const normal = (mean = 0, sd = 1) =>
    mean + sd * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())
  return {
    uniform: next,
    between: (low, high) => low + (high - low) * next(),
    normal,
    chance: (probability) => next() < probability,
    weighted: (choices) => {
      const total = choices.reduce((sum, [, weight]) => sum + weight, 0)
      let rest = next() * total
      for (const [choice, weight] of choices) {
        rest -= weight
        if (rest < 0) return choice
      }
      const last = choices.at(-1)
      if (!last) throw new RangeError('nothing to choose from')
      return last[0]
    },
  }
}

function hashOf(text: string): number {
  let hash = 0x811c9dc5
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
  return hash >>> 0
}

function mix(word: number): number {
  let x = word
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b)
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35)
  return (x ^ (x >>> 16)) | 0
}
