import type { ReactNode } from 'react'
import { KeepList } from '../ui/downtime/keep-list.tsx'
import { Providers } from '../ui/frame/providers.tsx'

export default function StaffLayout({ children }: { children: ReactNode }) {
  return (
    <Providers>
      {children}
      <KeepList />
    </Providers>
  )
}
