/**
 * The clock of this device: for what is shown (how long ago, how long still) or proposed (the time of an
 * entry), never for a decision: the server judges by its own. Beside lib/clock.ts the only file that may
 * read a clock.
 */
export function browserNow(): Date {
  return new Date()
}
