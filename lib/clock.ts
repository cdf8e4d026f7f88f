import { readFileSync } from 'node:fs'

/**
 * The present instant: the one place in lib/ and app/ that reads the time, so that everything else can be
 * asked about any other instant.
 *
 * In test mode only (OUTFLOW_TEST_MODE=1) the file named by OUTFLOW_CLOCK_FILE holds an offset in
 * milliseconds. It is read on each call, so a test can move a running server's clock.
 */
export function now(): Date {
  return new Date(Date.now() + testOffsetMs())
}

/** Milliseconds since the call, by a clock that nobody sets: for measuring, not for telling the time. */
export function stopwatch(): () => number {
  const startedMs = performance.now()
  return () => performance.now() - startedMs
}

function testOffsetMs(): number {
  const file = process.env.OUTFLOW_CLOCK_FILE
  if (process.env.OUTFLOW_TEST_MODE !== '1' || !file) return 0
  try {
    const offsetMs = Number(readFileSync(file, 'utf8'))
    return Number.isFinite(offsetMs) ? offsetMs : 0
  } catch {
    return 0 // no file yet: the clock has not been moved
  }
}
