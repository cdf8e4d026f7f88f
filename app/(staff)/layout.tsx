import type { ReactNode } from 'react'
import { preload } from 'react-dom'
import { KeepList } from '../ui/downtime/keep-list.tsx'
import { Providers } from '../ui/frame/providers.tsx'

/** The type that every page is set in; letters beyond Latin come when a page needs them (app/layout.tsx). */
const face = new URL(
  '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2',
  import.meta.url,
)

export default function StaffLayout({ children }: { children: ReactNode }) {
  // With the page itself, not when its style is read: nothing is set twice, and the first chart comes sooner. A
  // patient's phone on a slow line has more urgent things to ask for.
  preload(String(face), { as: 'font', type: 'font/woff2', crossOrigin: 'anonymous' })
  return (
    <Providers>
      {children}
      <KeepList />
    </Providers>
  )
}
