'use client'

import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { canKeep, keepList, startWorker } from '@/lib/client/kept-list.ts'
import { worklistQuery } from '@/lib/client/queries.ts'

/** Between two keepings; a busy morning reads the list every second. */
const EVERY_MS = 10_000

/** Keeps each worklist that this workstation reads, for when the server cannot be reached. Shows nothing. */
export function KeepList() {
  const client = useQueryClient()
  useEffect(() => {
    if (!canKeep()) return
    let kept: string | null = null
    let timer: ReturnType<typeof setTimeout> | undefined
    // A full disk or a browser that keeps nothing is no reason to trouble whoever works the list.
    const keep = () => {
      timer = undefined
      const list = client.getQueryData(worklistQuery.queryKey)
      if (!list || list.asOf === kept) return
      kept = list.asOf
      void keepList(list).catch(() => undefined)
    }
    startWorker().catch(() => undefined)
    keep()
    const unfollow = client.getQueryCache().subscribe(({ query }) => {
      if (query.queryKey.length === 1 && query.queryKey[0] === worklistQuery.queryKey[0])
        timer ??= setTimeout(keep, kept === null ? 0 : EVERY_MS)
    })
    return () => {
      clearTimeout(timer)
      unfollow()
    }
  }, [client])
  return null
}
