'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; onClose: () => void; onDone: (says: string) => void }

const Resumed = z.looseObject({ state: z.enum(['resumed', 'asked']) })

/** Takes a patient back into follow-up. A recorded death is undone by a second person, who confirms. */
export function ResumeDialog({ page, onClose, onDone }: Props) {
  const { patient, followUp } = page
  const [why, setWhy] = useState('')
  const [missing, setMissing] = useState<string>()
  const sending = useSend(
    `${patientDoor(patient.id)}/follow-up`,
    Resumed,
    ({ state }) =>
      onDone(
        state === 'resumed'
          ? 'Follow-up goes on.'
          : 'Asked for. Another person has to confirm that the recorded death is undone.',
      ),
    undefined,
    'DELETE',
  )
  const isDeath = followUp.reason === 'died'
  const isConfirming = isDeath && followUp.undoAskedBy !== null
  return (
    <PatientDialog patient={patient} title="Take back into follow-up:" onClose={onClose}>
      <DialogForm
        main={
          isConfirming
            ? 'Confirm: follow-up goes on'
            : isDeath
              ? 'Ask to undo the death'
              : 'Follow-up goes on'
        }
        sending={sending}
        shown={['why']}
        onSubmit={() => {
          setMissing(why.trim() ? undefined : 'Say why; it is kept.')
          if (why.trim()) sending.send({ why: why.trim() })
        }}
        onClose={onClose}
      >
        {isConfirming ? (
          <p>
            {followUp.undoAskedBy} asked for it: “{followUp.undoWhy}”. You confirm that this person is alive
            and is the one who is meant.
          </p>
        ) : null}
        {isDeath && !isConfirming ? (
          <p>A death was recorded. You ask for it to be undone; another person confirms it.</p>
        ) : null}
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
