import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import './check-in.css'
import './machine.css'
import icon from './icons/icon-192.png'
import vector from './icons/vector.svg'
import { sayFor } from './words/catalogues.ts'
import { pageLanguage } from './words/page-language.ts'

export async function generateMetadata(): Promise<Metadata> {
  const title = sayFor(await pageLanguage())('pageTitle')
  return {
    title,
    robots: { index: false, follow: false },
    manifest: '/check-in/manifest.webmanifest',
    appleWebApp: { title, capable: true },
    icons: { icon: vector.src, apple: icon.src },
  }
}

export default function CheckInLayout({ children }: { children: ReactNode }) {
  return children
}
