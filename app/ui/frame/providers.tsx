'use client'

import { QueryClientProvider } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { newQueryClient } from '@/lib/client/query-client.ts'

/** What the staff's rooms share in the browser: one memory of answers, kept from room to room. */
export function Providers({ children }: { children: ReactNode }) {
  const [client] = useState(newQueryClient)
  return <QueryClientProvider client={client}>{children}</QueryClientProvider>
}
