'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { inPlace } from '@/lib/domain/call-sheet.ts'
import { EndReason } from '@/lib/domain/follow-up.ts'
import { endLabels } from '@/lib/domain/labels.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import { Choice, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; staff: StaffMember; onClose: () => void; onDone: (says: string) => void }
type Faults = Partial<Record<'reason' | 'why' | 'sure', string>>

const afterwards: readonly string[] = [
  'The patient leaves the worklist, and no reminder goes out any more.',
  'Their check-in page says that follow-up has ended, and whom to call.',
  'A report that still comes puts them back on the worklist, with the reason.',
  'What is flagged stays in the record as it is.',
]

/** The careful end: why, what follows, and that it is the right person. */
export function EndDialog({ page, staff, onClose, onDone }: Props) {
  const { patient } = page
  const [reason, setReason] = useState<EndReason | null>(null)
  const [why, setWhy] = useState('')
  const [sure, setSure] = useState(false)
  const [faults, setFaults] = useState<Faults>({})
  const sending = useSend(`${patientDoor(patient.id)}/follow-up`, z.unknown(), () =>
    onDone('Follow-up has ended.'),
  )
  const { fault } = sending
  const left = inPlace(page).map(({ id }) => page.labels[id]?.label ?? id)
  const hasDrain = left.length > 0 && reason !== null && reason !== 'died'
  const isBarred = hasDrain && !may(staff.role, 'end-with-drain')

  const submit = () => {
    const found: Faults = {
      ...(reason ? {} : { reason: 'Say why it ends.' }),
      ...(isBarred ? { reason: 'Not with a drain in place: a physician may, and says why.' } : {}),
      ...(hasDrain && !why.trim() ? { why: 'With a drain in place: say why it ends all the same.' } : {}),
      ...(sure ? {} : { sure: 'Check who it is first.' }),
    }
    setFaults(found)
    if (Object.keys(found).length === 0) sending.send({ reason, ...(why.trim() ? { why: why.trim() } : {}) })
  }

  return (
    <PatientDialog patient={patient} title="End follow-up of" onClose={onClose}>
      <DialogForm
        main="End follow-up"
        sending={sending}
        shown={['reason', 'why']}
        onSubmit={submit}
        onClose={onClose}
      >
        <Group legend="Why it ends" fault={faults.reason ?? faultOf(fault, 'reason')}>
          {EndReason.options.map((one) => (
            <Choice
              key={one}
              type="radio"
              name="reason"
              checked={reason === one}
              onChange={() => setReason(one)}
            >
              {endLabels[one]}
            </Choice>
          ))}
        </Group>
        {hasDrain ? (
          <p role="status" className={form.fault}>
            In place by the record: {left.join(', ')}.{' '}
            {isBarred
              ? 'Record the removal first, or ask a physician to end follow-up.'
              : 'Whoever has a drain and no follow-up is watched by nobody: say why it ends all the same.'}
          </p>
        ) : null}
        {reason === 'died' ? (
          <p role="status">
            Every message stops at once. To undo this takes two people: one who asks, another who confirms.
          </p>
        ) : null}
        <TextField
          label={hasDrain ? 'Why, with a drain in place' : 'Note'}
          size={44}
          maxLength={500}
          value={why}
          onChange={setWhy}
          fault={faults.why ?? faultOf(fault, 'why')}
        />
        <Group legend="It is this person" fault={faults.sure}>
          <Choice type="checkbox" checked={sure} onChange={setSure}>
            {patient.name}, {fullDate(patient.birthDate)}, {patient.recordNumber}: checked against the chart
          </Choice>
        </Group>
        <div className={form.hint}>
          <p>What follows:</p>
          <ul>
            {afterwards.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      </DialogForm>
    </PatientDialog>
  )
}
