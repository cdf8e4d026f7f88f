import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import './check-in.css'
import { say } from './words/say.ts'

export const metadata: Metadata = { title: say.title, robots: { index: false, follow: false } }

export default function CheckInLayout({ children }: { children: ReactNode }) {
  return children
}
