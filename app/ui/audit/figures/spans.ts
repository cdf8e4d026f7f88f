/** How many whole weeks can be looked at. */
export const SPANS = [4, 8, 13, 26] as const
const USUAL = 8

/** What an address asks for; anything else is the usual. */
export const weeksFrom = (asked: string | string[] | undefined): number =>
  SPANS.find((weeks) => String(weeks) === asked) ?? USUAL
