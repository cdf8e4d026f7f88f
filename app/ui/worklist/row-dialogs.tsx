'use client'

import type { useHold } from '@/lib/client/use-hold.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { CallbackDialog, OverruleDialog } from './later.tsx'

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
  return what === 'call' ? (
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
  )
}
