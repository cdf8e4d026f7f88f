import { queryOptions } from '@tanstack/react-query'
import { DraftBeginning, DraftPage, RulesPage } from '../domain/rule-draft.ts'
import { ask } from './ask.ts'

export const rulesQuery = queryOptions({
  queryKey: ['rule-sets'],
  queryFn: ({ signal }) => ask('/api/audit/rules', RulesPage, { signal }),
})

export const draftDoor = (id: string) => `/api/audit/rules/drafts/${encodeURIComponent(id)}`

export const beginningQuery = queryOptions({
  queryKey: ['rule-sets', 'beginning'],
  queryFn: ({ signal }) => ask('/api/audit/rules/drafts', DraftBeginning, { signal }),
})

export const draftQuery = (id: string) =>
  queryOptions({
    queryKey: ['rule-sets', 'draft', id],
    queryFn: ({ signal }) => ask(draftDoor(id), DraftPage, { signal }),
  })
