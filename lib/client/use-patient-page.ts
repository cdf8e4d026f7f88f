import { useQuery, useSuspenseQuery } from '@tanstack/react-query'
import { useCallback, useState } from 'react'
import { patientQuery } from './patient-query.ts'

/** What came before the days that a page was opened with: how it is asked for, and how that goes. */
export type Earlier = { want: () => void; again: () => void; isReading: boolean; hasFailed: boolean }

/**
 * A patient's page: at first the last days, and from when something earlier is wanted the whole record. Both stay
 * current; until the whole has come the last days stand.
 */
export function usePatientPage(id: string) {
  const [isWanted, setIsWanted] = useState(false)
  const recent = useSuspenseQuery(patientQuery(id))
  // Not kept when the page is left: what stood there then would be shown again before it is read anew.
  const whole = useQuery({ ...patientQuery(id, 'whole'), enabled: isWanted, gcTime: 0 })
  const earlier: Earlier = {
    want: useCallback(() => setIsWanted(true), []),
    again: () => void whole.refetch(),
    isReading: isWanted && whole.isFetching,
    hasFailed: isWanted && whole.isError && !whole.isFetching,
  }
  return {
    page: (isWanted ? whole.data : undefined) ?? recent.data,
    // Once the whole record stands on the screen, it is what must stay current.
    error: recent.error ?? (whole.data ? whole.error : null),
    refetch: () => Promise.all([recent.refetch(), ...(isWanted ? [whole.refetch()] : [])]),
    earlier,
  }
}
