'use client'

import { useState } from 'react'
import { patientDoor } from '@/lib/client/patient-door.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { latestChange } from './latest-change.ts'
import { UndoLine } from './undo-line.tsx'

/** The event or the change of orders that this member of staff has just recorded, and the way to take it back. */
export function RecordedChangeLine({ page, staffId }: { page: PatientPage; staffId: string }) {
  const [hidden, setHidden] = useState('')
  const change = latestChange(page, staffId)
  if (change === null || change.key === hidden) return null
  const { key, door, recordedAt, ...line } = change
  return (
    <UndoLine
      key={key}
      {...line}
      door={`${patientDoor(page.patient.id)}/${door}`}
      elapsedS={(Date.parse(page.asOf) - Date.parse(recordedAt)) / 1000}
      onHide={() => setHidden(key)}
    />
  )
}
