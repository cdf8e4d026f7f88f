'use client'

import { useState } from 'react'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { NoteWritten, PATIENT_NOTE_MAX } from '@/lib/domain/patient-note.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; by: string; onClose: () => void; onDone: (says: string) => void }

/** A note without a call, signed by who is signed in. */
export function NoteDialog({ page, by, onClose, onDone }: Props) {
  const { patient } = page
  const [text, setText] = useState('')
  const [isEmpty, setEmpty] = useState(false)
  const sending = useSend(`${patientDoor(patient.id)}/notes`, NoteWritten, () => onDone(''))
  return (
    <PatientDialog patient={patient} title="Note about" onClose={onClose}>
      <DialogForm
        main="Sign the note"
        sending={sending}
        shown={['text']}
        onSubmit={() => {
          setEmpty(text.trim() === '')
          if (text.trim() !== '') sending.send({ text: text.trim() })
        }}
        onClose={onClose}
      >
        <p className={form.hint}>
          Signed by {by}, with the time. It closes nothing and is no call: what stands on the worklist stays.
          Ctrl and Enter sign.
        </p>
        <Field label="Note" fault={isEmpty ? 'Write the note.' : faultOf(sending.fault, 'text')}>
          {(wired) => (
            <textarea
              {...wired}
              rows={6}
              maxLength={PATIENT_NOTE_MAX}
              value={text}
              onChange={(event) => setText(event.target.value)}
            />
          )}
        </Field>
      </DialogForm>
    </PatientDialog>
  )
}
