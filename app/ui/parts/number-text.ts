/** What somebody typed as a number, with a point or a comma; null where it is empty, NaN where it is no number. */
export function numberOf(text: string): number | null {
  const trimmed = text.trim().replace(',', '.')
  if (trimmed === '') return null
  return /^-?\d+(\.\d+)?$/.test(trimmed) ? Number(trimmed) : Number.NaN
}

/** Whether a text is a number from low to high; an empty one is, where nothing need be said. */
export function isWithin(text: string, low: number, high: number): boolean {
  const value = numberOf(text)
  return value === null || (value >= low && value <= high)
}
