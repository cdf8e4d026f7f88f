/** A row is kept for longer when less than this is left of it: within the shortest lease, of five minutes, once. */
const LEFT_MS = 150_000
/** A page that nobody has touched for so long keeps nothing: a computer that was left must not hold a row, nor a session. */
const UNTOUCHED_MS = 15 * 60_000

/** Whether an open patient's page asks for its row for longer; a row that has run out is no longer its own to keep. */
export const isToRenew = (leftMs: number, untouchedMs: number): boolean =>
  leftMs > 0 && leftMs < LEFT_MS && untouchedMs < UNTOUCHED_MS
