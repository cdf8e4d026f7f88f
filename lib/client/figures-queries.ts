import { queryOptions } from '@tanstack/react-query'
import { type FigureName, FiguresPage, PatientsBehind } from '../domain/figures.ts'
import { ask } from './ask.ts'

export const FIGURES_DOOR = '/api/audit/figures'

/** The figures of the last so many whole weeks. They change as the store does, not by the minute. */
export const figuresQuery = (weeks: number) =>
  queryOptions({
    queryKey: ['figures', weeks],
    queryFn: ({ signal }) => ask(`${FIGURES_DOOR}?weeks=${weeks}`, FiguresPage, { signal }),
    staleTime: 60_000,
  })

export type Behind = { figure: FigureName; part: string | null; from: string; until: string }

/** Who stands behind a figure. Each reading is entered in the access record, so it is made once, when it is asked for. */
export const behindQuery = ({ figure, part, from, until }: Behind) => {
  const asked = new URLSearchParams({ figure, from, until, ...(part === null ? {} : { part }) })
  return queryOptions({
    queryKey: ['figure-patients', figure, part, from, until],
    queryFn: ({ signal }) => ask(`${FIGURES_DOOR}/patients?${asked}`, PatientsBehind, { signal }),
    staleTime: Number.POSITIVE_INFINITY,
  })
}
