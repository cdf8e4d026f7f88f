import { dehydrate, HydrationBoundary, QueryClient, type QueryKey } from '@tanstack/react-query'
import type { ReactNode } from 'react'

/** Brings an answer that the server has read already along with the page, under the key by which the room asks for it. */
export function Hydrated({
  queryKey,
  data,
  children,
}: {
  queryKey: QueryKey
  data: unknown
  children: ReactNode
}) {
  const client = new QueryClient()
  client.setQueryData(queryKey, data)
  return <HydrationBoundary state={dehydrate(client)}>{children}</HydrationBoundary>
}
