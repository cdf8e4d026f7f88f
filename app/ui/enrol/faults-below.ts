/** The faults of one part of a form, by their paths within it. */
export const faultsBelow = (faults: Record<string, string>, prefix: string): Record<string, string> =>
  Object.fromEntries(
    Object.entries(faults).flatMap(([at, says]) =>
      at.startsWith(prefix) ? [[at.slice(prefix.length), says]] : [],
    ),
  )
