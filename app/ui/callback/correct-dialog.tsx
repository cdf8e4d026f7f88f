'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { noteRecordedCall } from '@/lib/client/recorded-call.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { AttemptOutcome, type Callback } from '@/lib/domain/callback.ts'
import { dayAndTime, fullDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { Dialog } from '../parts/dialog.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import { type CallDraft, type DraftFaults, draftOf, saidFaults, toCorrection } from './draft.ts'
import { LookAgainField, NoteField, OutcomeField, SpokenFields } from './said-fields.tsx'

type Props = {
  page: PatientPage
  call: Callback
  now: number
  onClose: () => void
  onDone: (says: string) => void
}

const shown = ['outcome', 'spokenTo', 'agreed', 'teachBack', 'lookAgainAt', 'note', 'why']

/** What should have been recorded of a call. The old record stays, and closing is not done here. */
export function CorrectDialog({ page, call, now, onClose, onDone }: Props) {
  const { patient, clinic } = page
  const [draft, setDraft] = useState(() => draftOf(call, clinic.timeZone))
  const [why, setWhy] = useState('')
  const [faults, setFaults] = useState<DraftFaults & { why?: string }>({})
  const { send, isSending, fault } = useSend(
    `${patientDoor(patient.id)}/callbacks/${call.id}/correction`,
    z.unknown(),
    () => {
      noteRecordedCall(null)
      onDone('The call is corrected; the old record stays beside it.')
    },
  )
  const set = (part: Partial<CallDraft>) => setDraft((before) => ({ ...before, ...part }))
  const said = { draft, set, faults, fault }
  const wasReached = call.outcome === 'reached'
  const outcomes = AttemptOutcome.options.filter((one) =>
    call.direction === 'they-called' ? one === 'reached' : wasReached || one !== 'reached',
  )

  return (
    <Dialog
      title={`Correct the call of ${dayAndTime(call.at, clinic.timeZone)}`}
      about={`${patient.name} · ${fullDate(patient.birthDate)} · ${patient.recordNumber}`}
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          const found = {
            ...saidFaults(draft, clinic.timeZone),
            ...(why.trim() ? {} : { why: 'Say why it is corrected.' }),
          }
          setFaults(found)
          if (Object.keys(found).length === 0 && !fault?.stored)
            send(toCorrection(draft, why, clinic.timeZone))
        }}
      >
        <div className={form.form}>
          <p className={form.hint}>
            {wasReached
              ? 'A correction closes nothing. If nobody was reached after all, what this call closed comes back.'
              : 'If somebody was reached, record that as a call of its own.'}
          </p>
          <OutcomeField {...said} outcomes={outcomes} />
          {draft.outcome === 'reached' ? (
            <>
              <SpokenFields {...said} needsInterpreter={patient.interpreter} />
              <LookAgainField {...said} isDue={false} now={now} clinicZone={clinic.timeZone} />
            </>
          ) : null}
          <NoteField draft={draft} set={set} fault={fault} />
          <TextField
            label="Why it is corrected"
            size={44}
            maxLength={500}
            value={why}
            onChange={setWhy}
            fault={faults.why ?? faultOf(fault, 'why')}
          />
        </div>
        <FormFoot
          main="Correct the call"
          isSending={isSending}
          fault={fault}
          shown={shown}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}
