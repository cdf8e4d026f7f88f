import type { Metadata, Viewport } from 'next'
import { connection } from 'next/server'
import type { ReactNode } from 'react'
import { languages } from '@/lib/domain/languages.ts'
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css'
import './tokens.css'
import './base.css'
import { documentLanguage } from './check-in/words/page-language.ts'
import { EarlyScript } from './ui/frame/early-script.tsx'
import { Ready } from './ui/frame/ready.tsx'

export const metadata: Metadata = {
  title: { default: 'Outflow Round', template: '%s · Outflow Round' },
  description: 'Follow-up of people at home with a drain: who needs a call now, and why.',
}

export const viewport: Viewport = { width: 'device-width', initialScale: 1 }

/** Every page is rendered per request: the nonce of the Content-Security-Policy is made for one answer. */
export default async function RootLayout({ children }: { children: ReactNode }) {
  await connection()
  const language = await documentLanguage()
  return (
    <html lang={language} dir={languages[language].dir}>
      <body>
        <EarlyScript />
        {children}
        <Ready />
      </body>
    </html>
  )
}
