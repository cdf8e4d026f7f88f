'use client'

import { type ComponentProps, type ComponentType, lazy, Suspense } from 'react'
import { useRecordedCall } from '@/lib/client/recorded-call.ts'

/** What is fetched when it is first wanted: the list itself is there sooner. */
function later<P extends object>(fetched: () => Promise<ComponentType<P>>): ComponentType<P> {
  const Lazy = lazy(async () => ({ default: await fetched() })) as unknown as ComponentType<P>
  return (props: P) => (
    <Suspense fallback={null}>
      <Lazy {...props} />
    </Suspense>
  )
}

type Line = typeof import('../callback/recorded-call.tsx').RecordedCallLine
const Recorded = later<ComponentProps<Line>>(
  async () => (await import('../callback/recorded-call.tsx')).RecordedCallLine,
)

export const CallbackDialog = later(
  async () => (await import('../callback/callback-dialog.tsx')).CallbackDialog,
)
export const OverruleDialog = later(async () => (await import('./overrule-dialog.tsx')).OverruleDialog)
export const FoundOthers = later(async () => (await import('./found-others.tsx')).FoundOthers)

/** The line about the call that was just recorded, once there is one. */
export const RecordedCallLine = () => (useRecordedCall() ? <Recorded /> : null)
