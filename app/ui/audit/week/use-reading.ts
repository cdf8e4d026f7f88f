'use client'

import { useMutation, useQueryClient } from '@tanstack/react-query'
import { ask } from '@/lib/client/ask.ts'
import { itemQuery, reviewDoor, weekQuery, weeksQuery } from '@/lib/client/audit-week-queries.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { type NewReview, ReviewSaved } from '@/lib/domain/review-page.ts'
import { Happened } from '@/lib/domain/week-page.ts'

/** Gives verdicts on the items of a week, and opens what happened. */
export function useReading(week: string) {
  const client = useQueryClient()
  const refresh = async (item: string) => {
    await Promise.all([
      client.invalidateQueries({ queryKey: itemQuery(item).queryKey }),
      client.invalidateQueries({ queryKey: weekQuery(week).queryKey }),
      client.invalidateQueries({ queryKey: weeksQuery.queryKey }),
    ])
  }
  const save = useMutation({
    mutationFn: ({ key, body }: { key: string; body: NewReview }) =>
      ask('/api/audit/reviews', ReviewSaved, { method: 'POST', key, body }),
    onSuccess: (_, { body }) => refresh(body.item),
  })
  const open = useMutation({
    mutationFn: (item: string) =>
      ask(`${reviewDoor(item)}/opened`, Happened, { method: 'POST', key: newKey(), body: {} }),
  })
  return {
    save: (body: NewReview, key: string) => {
      if (!save.isPending) save.mutate({ body, key })
    },
    isSaving: save.isPending,
    fault: save.error ? faultFrom(save.error) : open.error ? faultFrom(open.error) : null,
    open: (item: string) => {
      if (!open.isPending) open.mutate(item)
    },
    /** What was opened last, if it is of this item. */
    happenedTo: (item: string) => (open.data?.item === item ? open.data : null),
    reset: () => {
      save.reset()
      if (open.isError) open.reset()
    },
  }
}
