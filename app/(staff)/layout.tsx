import type { ReactNode } from 'react'
import { Providers } from '../ui/frame/providers.tsx'

export default function StaffLayout({ children }: { children: ReactNode }) {
  return <Providers>{children}</Providers>
}
