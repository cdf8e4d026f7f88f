import { QueryClient } from '@tanstack/react-query'
import { RefusedError } from './ask.ts'

/** One client for a page's life. What was refused is not asked again; what was not answered is, twice. */
export const newQueryClient = (): QueryClient =>
  new QueryClient({
    defaultOptions: {
      queries: {
        retry: (failures, error) => !(error instanceof RefusedError) && failures < 2,
        refetchOnWindowFocus: true,
      },
      mutations: { retry: false },
    },
  })
