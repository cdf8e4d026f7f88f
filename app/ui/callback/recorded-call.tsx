'use client'

import Link from 'next/link'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { noteRecordedCall, type RecordedCall, useRecordedCall } from '@/lib/client/recorded-call.ts'
import { UndoLine } from '../patient/undo-line.tsx'

type Props = {
  /** Only calls of this patient; else of any. */
  patientId?: string
  /** Opens the visits here; else it leads to the patient's page. */
  onVisits?: () => void
}

/** The call that was just recorded: what comes next, and for a minute the way to take it back. */
export function RecordedCallLine({ patientId, onVisits }: Props) {
  const call = useRecordedCall()
  if (!call || (patientId !== undefined && call.patientId !== patientId)) return null
  return <Line key={call.recorded.callback} call={call} onVisits={onVisits} />
}

function Line({ call, onVisits }: { call: RecordedCall; onVisits: (() => void) | undefined }) {
  const { patientId, name, recorded, books } = call
  const next = recorded.nextTry ? ` Next: ${recorded.nextTry.says}` : ''
  return (
    <UndoLine
      says={`The call to ${name} is recorded.${next}`}
      undone={`The call to ${name} is taken back: everything stands as before it.`}
      door={`${patientDoor(patientId)}/callbacks/${recorded.callback}/undo`}
      about="the recorded call"
      onHide={() => noteRecordedCall(null)}
    >
      {books && onVisits ? (
        <button type="button" onClick={onVisits}>
          Note the visit
        </button>
      ) : null}
      {books && !onVisits ? (
        <Link href={`/patients/${patientId}`} prefetch={false}>
          Note the visit on the page of {name}
        </Link>
      ) : null}
    </UndoLine>
  )
}
