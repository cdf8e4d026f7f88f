'use client'

import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { canKeep, keepList, startWorker } from '@/lib/client/kept-list.ts'
import { worklistQuery } from '@/lib/client/worklist-query.ts'

/** Between two keepings; a busy morning reads the list every second. */
const EVERY_MS = 10_000

/**
 * Keeps each worklist that this workstation reads, for when the server cannot be reached. Shows nothing. Only what was
 * read by a question of its own: the list that comes along with the page may be the beginning of a longer one.
 */
export function KeepList() {
  const client = useQueryClient()
  useEffect(() => {
    if (!canKeep()) return
    let isKept = false
    let timer: ReturnType<typeof setTimeout> | undefined
    // A full disk or a browser that keeps nothing is no reason to trouble whoever works the list.
    const keep = () => {
      timer = undefined
      const list = client.getQueryData(worklistQuery.queryKey)
      if (!list) return
      isKept = true
      void keepList(list).catch(() => undefined)
    }
    startWorker().catch(() => undefined)
    const unfollow = client.getQueryCache().subscribe((event) => {
      if (event.type !== 'updated' || event.action.type !== 'success') return
      const { queryKey } = event.query
      if (queryKey.length === 1 && queryKey[0] === worklistQuery.queryKey[0])
        timer ??= setTimeout(keep, isKept ? EVERY_MS : 0)
    })
    return () => {
      clearTimeout(timer)
      unfollow()
    }
  }, [client])
  return null
}
