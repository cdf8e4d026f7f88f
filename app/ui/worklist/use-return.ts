'use client'

import { useSearchParams } from 'next/navigation'
import { useEffect, useRef } from 'react'
import { noteList, noteReturned, rowsToReturnTo } from '@/lib/client/left-list.ts'

/**
 * Who comes back from a patient's page finds the list as it was left: the focus on the row that was opened, or on the
 * next one where it is gone. Until the whole list is there, only the row itself will do.
 */
export function useReturn(rowIds: readonly string[], isPart: boolean, focusRow: (id: string) => void): void {
  // As the address writes it: lists stand in it with plain commas.
  const query = useSearchParams().toString().replaceAll('%2C', ',')
  const focus = useRef(focusRow)
  const isBack = useRef(false)
  useEffect(() => {
    focus.current = focusRow
  })
  useEffect(() => {
    if (isBack.current) return
    const [left, ...near] = rowsToReturnTo()
    if (left === undefined) {
      isBack.current = true
      return
    }
    const there = [left, ...(isPart ? [] : near)].find((id) => rowIds.includes(id))
    if (there === undefined && isPart) return
    isBack.current = true
    noteReturned()
    // After the page has been scrolled to its top, as every new page is.
    if (there !== undefined) requestAnimationFrame(() => focus.current(there))
  }, [rowIds, isPart])
  useEffect(() => {
    if (isBack.current) noteList(query, rowIds)
  }, [query, rowIds])
}
