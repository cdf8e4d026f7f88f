import type { Metadata } from 'next'
import { Door } from './ui/door/door.tsx'

export const metadata: Metadata = { title: 'Not found' }

/** In place of the framework's own page, whose inline styles the Content-Security-Policy refuses. */
export default function NotFound() {
  return (
    <Door title="There is no such page">
      <p>
        The address may be mistyped, or what it led to is not yours to see. <a href="/">To the worklist</a>
      </p>
    </Door>
  )
}
