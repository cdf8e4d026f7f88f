'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { eventLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { KeptStaffEvent } from '@/lib/domain/staff-event.ts'
import { faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = {
  page: PatientPage
  event: KeptStaffEvent
  onClose: () => void
  onDone: (says: string) => void
}

/** Withdraws an event that was recorded by mistake. It stays readable, struck out, with the reason. */
export function WithdrawDialog({ page, event, onClose, onDone }: Props) {
  const { patient, clinic, labels } = page
  const { id, type, drain, at, by } = event
  const [why, setWhy] = useState('')
  const [missing, setMissing] = useState<string>()
  const sending = useSend(`${patientDoor(patient.id)}/staff-events/${id}/withdrawal`, z.unknown(), () =>
    onDone('The event is withdrawn.'),
  )
  return (
    <PatientDialog patient={patient} title="Withdraw an event of" onClose={onClose}>
      <DialogForm
        main="Withdraw the event"
        sending={sending}
        shown={['why']}
        onSubmit={() => {
          setMissing(why.trim() ? undefined : 'Say why; it is kept.')
          if (why.trim()) sending.send({ why: why.trim() })
        }}
        onClose={onClose}
      >
        <p>
          {eventLabels[type]}
          {drain ? `, ${labels[drain]?.label ?? drain}` : ''}, {dayAndTime(at, clinic.timeZone)}, recorded by{' '}
          {by}. The patient is assessed as if it had not been recorded: flags and visits that it settled stand
          again.
        </p>
        <TextField
          label="Why"
          size={44}
          maxLength={500}
          value={why}
          onChange={setWhy}
          fault={missing ?? faultOf(sending.fault, 'why')}
        />
      </DialogForm>
    </PatientDialog>
  )
}
