/*
 * Comparisons of volumes that were added up from parts: a limit that is met exactly must not be
 * missed, or crossed, by the last bit of a sum.
 */
const NOISE = 1e-6

export const less = (a: number, b: number) => a < b - NOISE
export const more = (a: number, b: number) => a > b + NOISE
export const atMost = (a: number, b: number) => a <= b + NOISE
export const atLeast = (a: number, b: number) => a >= b - NOISE
