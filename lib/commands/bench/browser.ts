/** How a Chromium of this machine is started to measure: without a screen, and without talking to anybody. */
export const flags = [
  ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'],
  ...['--disable-background-networking', '--disable-component-update', '--disable-sync'],
]

/** The middle of some measurements, with the smallest and the largest, to three figures. */
export function spread(values: readonly number[]): { value: number; low: number; high: number } {
  const sorted = values.toSorted((a, b) => a - b)
  const rounded = (value: number | undefined) => Number((value ?? Number.NaN).toPrecision(3))
  return {
    value: rounded(sorted[Math.floor(sorted.length / 2)]),
    low: rounded(sorted[0]),
    high: rounded(sorted.at(-1)),
  }
}
