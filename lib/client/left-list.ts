/** The worklist as it was left, in the memory of this page: how it was looked at, its rows in order, the row that was opened. */
let search = ''
let rowIds: readonly string[] = []
let opened: string | null = null

/** Keeps how the list is looked at, as its address states it, and the order of its rows. */
export function noteList(query: string, ids: readonly string[]): void {
  search = query === '' ? '' : `?${query}`
  rowIds = ids
}

/** Keeps whose page was opened last. */
export function noteOpened(patientId: string): void {
  opened = patientId
}

/** The address of the list as it was left. */
export const backToList = (): string => `/${search}`

/**
 * The rows to come back to, the one that was left first, then those after it and before it, in case it is gone; none
 * where no patient was opened from here.
 */
export function rowsToReturnTo(): readonly string[] {
  if (opened === null) return []
  const at = rowIds.indexOf(opened)
  return at < 0 ? [opened] : [...rowIds.slice(at), ...rowIds.slice(0, at).reverse()]
}

/** The list has come back to its row: nothing is to be returned to any more. */
export function noteReturned(): void {
  opened = null
}
