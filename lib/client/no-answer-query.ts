import { queryOptions } from '@tanstack/react-query'
import { NoAnswerPage } from '../domain/no-answer.ts'
import { ask } from './ask.ts'

export const noAnswerQuery = queryOptions({
  queryKey: ['no-answer'],
  queryFn: ({ signal }) => ask('/api/clinic/no-answer', NoAnswerPage, { signal }),
})
