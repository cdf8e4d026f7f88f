/** The verdict of a method whose data do not carry an answer: never a guess, and no error either. */
export type TooFew = { readonly enough: false; readonly have: number; readonly need: number }

/**
 * May this list go into a statistic?
 *
 * Method: every value must be a finite number. −0 counts as 0.
 *
 * @throws RangeError naming the list and the first value that is not finite.
 * @example requireFinite([1, 2, Number.NaN], 'values') // RangeError: values[2] is NaN; accepted: finite numbers
 */
export function requireFinite(values: readonly number[], name: string): void {
  const bad = values.findIndex((value) => !Number.isFinite(value))
  if (bad >= 0) throw new RangeError(`${name}[${bad}] is ${values[bad]}; accepted: finite numbers`)
}
