import { z } from 'zod'
import { Urgency } from './words.ts'

/** The columns of the worklist that can be left out; act by, patient and with always stand. */
export const LIST_COLUMNS = ['drain', 'found', 'output', 'heard'] as const
export const ListColumn = z.enum(LIST_COLUMNS)
export type ListColumn = z.infer<typeof ListColumn>

export const ListSort = z.enum(['act-by', 'name', 'heard', 'kind'])
export type ListSort = z.infer<typeof ListSort>
export const ListGroup = z.enum(['none', 'kind', 'with', 'urgency'])
export type ListGroup = z.infer<typeof ListGroup>
export const ListOnly = z.enum(['all', 'mine', 'free', 'upkeep'])
export type ListOnly = z.infer<typeof ListOnly>

/** How a person keeps their worklist: what is remembered of a view. A filter is not, so that it never hides tomorrow's rows. */
export const ListHabit = z.strictObject({
  sort: ListSort,
  group: ListGroup,
  columns: z.array(ListColumn).max(LIST_COLUMNS.length),
})
export type ListHabit = z.infer<typeof ListHabit>

/** One view of the worklist, as its address states it. What is looked for is not part of it: no name stands in an address. */
export type ListView = ListHabit & { urgencies: Urgency[]; only: ListOnly }

export const standardHabit: ListHabit = { sort: 'act-by', group: 'none', columns: [...LIST_COLUMNS] }
export const standardView: ListView = { ...standardHabit, urgencies: [], only: 'all' }

const NO_COLUMNS = 'none'

/**
 * The view that an address states, what it does not state from the person's habit. A word that is not known is
 * as if it were not there: an old link shows a list, not an error.
 */
export function readView(query: URLSearchParams, habit: ListHabit): ListView {
  const one = <T>(shape: z.ZodType<T>, name: string, otherwise: T): T => {
    const read = shape.safeParse(query.get(name))
    return read.success ? read.data : otherwise
  }
  const several = <T extends string>(shape: z.ZodType<T>, name: string): T[] => [
    ...new Set(
      (query.get(name) ?? '').split(',').flatMap((word) => {
        const read = shape.safeParse(word)
        return read.success ? [read.data] : []
      }),
    ),
  ]
  const columns = several(ListColumn, 'columns')
  const named = columns.length > 0 || query.get('columns') === NO_COLUMNS
  return {
    sort: one(ListSort, 'sort', habit.sort),
    group: one(ListGroup, 'group', habit.group),
    columns: LIST_COLUMNS.filter((column) => (named ? columns : habit.columns).includes(column)),
    urgencies: several(Urgency.exclude(['none']), 'urgency'),
    only: one(ListOnly, 'only', 'all'),
  }
}

/** The query that states a view whole, so that whoever opens the link sees the same list; none for the standard one. */
export function writeView(view: ListView, habit: ListHabit): string {
  const { sort, group, columns, urgencies, only } = view
  if (same(view, standardHabit) && same(habit, standardHabit) && urgencies.length === 0 && only === 'all')
    return ''
  const parts = [
    `sort=${sort}`,
    `group=${group}`,
    `columns=${columns.length > 0 ? columns.join(',') : NO_COLUMNS}`,
    ...(urgencies.length > 0 ? [`urgency=${urgencies.join(',')}`] : []),
    ...(only === 'all' ? [] : [`only=${only}`]),
  ]
  return `?${parts.join('&')}`
}

/** What of a view is remembered. */
export const habitOf = ({ sort, group, columns }: ListView): ListHabit => ({ sort, group, columns })

/** Whether two habits are one. */
export const same = (a: ListHabit, b: ListHabit): boolean =>
  a.sort === b.sort && a.group === b.group && a.columns.join() === b.columns.join()
