'use client'

import { lazy, Suspense } from 'react'
import type { useHold } from '@/lib/client/use-hold.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'

/** Fetched when one is opened: the list itself is there sooner. */
const CallbackDialog = lazy(async () => ({
  default: (await import('../callback/callback-dialog.tsx')).CallbackDialog,
}))
const OverruleDialog = lazy(async () => ({ default: (await import('./overrule-dialog.tsx')).OverruleDialog }))

export type OpenDialog = { what: 'call' | 'overrule'; row: WorklistRow } | null

type Props = {
  open: OpenDialog
  clinicZone: string
  now: number
  hold: ReturnType<typeof useHold>
  onClose: () => void
  onRecorded: (row: WorklistRow) => void
}

/** What opens over the list for one row. */
export function RowDialogs({ open, clinicZone, now, hold, onClose, onRecorded }: Props) {
  if (open === null) return null
  const { what, row } = open
  return (
    <Suspense fallback={null}>
      {what === 'call' ? (
        <CallbackDialog
          patient={row}
          flags={row.flags}
          labels={Object.fromEntries(row.drains.map(({ id, label }) => [id, label]))}
          clinicZone={clinicZone}
          now={now}
          onClose={onClose}
          onRecorded={() => onRecorded(row)}
        />
      ) : (
        <OverruleDialog
          patientId={row.patientId}
          name={row.name}
          holder={row.hold?.name ?? 'Somebody'}
          hold={hold}
          onClose={onClose}
        />
      )}
    </Suspense>
  )
}
