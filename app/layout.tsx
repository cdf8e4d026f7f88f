import type { Metadata, Viewport } from 'next'
import { connection } from 'next/server'
import type { ReactNode } from 'react'
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css'
import './tokens.css'
import './base.css'

export const metadata: Metadata = {
  title: { default: 'Outflow Round', template: '%s · Outflow Round' },
  description: 'Follow-up of people at home with a drain: who needs a call now, and why.',
}

export const viewport: Viewport = { width: 'device-width', initialScale: 1 }

/** Every page is rendered per request: the nonce of the Content-Security-Policy is made for one answer. */
export default async function RootLayout({ children }: { children: ReactNode }) {
  await connection()
  return (
    <html lang="en">
      <body>{children}</body>
    </html>
  )
}
