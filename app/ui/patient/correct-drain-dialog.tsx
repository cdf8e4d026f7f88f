'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { tubeSince } from '@/lib/domain/call-sheet.ts'
import { isUrinary, usualCourse } from '@/lib/domain/kinds.ts'
import { courseLabels, kindLabels, sideLabels } from '@/lib/domain/labels.ts'
import { inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Drain } from '@/lib/domain/record.ts'
import type { DrainKind, Side } from '@/lib/domain/words.ts'
import { Choice, Field } from '../parts/field.tsx'
import { faultOf } from '../parts/form-foot.tsx'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; drain: Drain; onClose: () => void; onDone: (says: string) => void }

/** Corrects what a drain was enrolled as: its name, side and kind, and when it was placed. What it was before is kept in a note. */
export function CorrectDrainDialog({ page, drain, onClose, onDone }: Props) {
  const { patient, labels, record } = page
  const before = labels[drain.id]?.label ?? ''
  const placedBefore = inputTime(drain.placedAt, record.timeZone)
  const [label, setLabel] = useState(before)
  const [side, setSide] = useState<Side | ''>(drain.side ?? '')
  const [kind, setKind] = useState<DrainKind>(drain.kind)
  const [onlyKidney, setOnlyKidney] = useState(drain.onlyKidney ?? false)
  const [placed, setPlaced] = useState(placedBefore)
  const [why, setWhy] = useState('')
  const [own, setOwn] = useState<{ label?: string; placedAt?: string; why?: string }>({})
  const sending = useSend(`${patientDoor(patient.id)}/drains/${drain.id}`, z.unknown(), () =>
    onDone('The drain is corrected.'),
  )
  const submit = () => {
    // The field tells no seconds: what was not changed is not sent.
    const placedAt = placed === placedBefore ? undefined : instantOf(placed, record.timeZone)
    const found = {
      ...(label.trim() ? {} : { label: 'A plain name.' }),
      ...(placedAt === null ? { placedAt: 'A day and a time.' } : {}),
      ...(why.trim() ? {} : { why: 'Say why; it is kept.' }),
    }
    setOwn(found)
    if (Object.keys(found).length === 0)
      sending.send({
        ...{ label: label.trim(), side: side || null, kind, why: why.trim() },
        onlyKidney: isUrinary(kind) && onlyKidney,
        ...(placedAt ? { placedAt } : {}),
      })
  }
  return (
    <PatientDialog patient={patient} title="Correct a drain of" onClose={onClose}>
      <DialogForm
        main="Correct the drain"
        sending={sending}
        shown={['label', 'side', 'kind', 'onlyKidney', 'placedAt', 'why']}
        onSubmit={submit}
        onClose={onClose}
      >
        <p>
          {kindLabels[drain.kind]}, until now: {before}. The patient’s own pages name it anew. This corrects
          what was recorded wrongly: for another drain in its place record its removal, and add a drain.
        </p>
        <TextField
          label="Plain name"
          size={20}
          maxLength={60}
          value={label}
          onChange={setLabel}
          fault={own.label ?? faultOf(sending.fault, 'label')}
        />
        <Field label="Side" fault={faultOf(sending.fault, 'side')}>
          {(wired) => <Select {...wired} value={side} onChange={setSide} labels={sideLabels} empty="none" />}
        </Field>
        <Field
          label="Kind"
          hint={kind === drain.kind ? undefined : `${courseLabels[usualCourse[kind]]}.`}
          fault={faultOf(sending.fault, 'kind')}
        >
          {(wired) => (
            <Select
              {...wired}
              value={kind}
              onChange={(one) => setKind(one || drain.kind)}
              labels={kindLabels}
            />
          )}
        </Field>
        {isUrinary(kind) ? (
          <Choice type="checkbox" checked={onlyKidney} onChange={setOnlyKidney}>
            Only kidney
          </Choice>
        ) : null}
        {kind === drain.kind ? null : (
          <p>
            Under another kind all that was measured is judged anew: flags that no longer hold end, others may
            open. A course, or drainage inward, that was ordered for the old kind ends; all else that is
            ordered stays: look at it afterwards.
          </p>
        )}
        <TextField
          label="Placed, patient’s time"
          type="datetime-local"
          hint={[
            ...(tubeSince(page, drain) === drain.placedAt
              ? []
              : ['Of the first tube; when a later one was put in is an event.']),
            ...(placed === placedBefore
              ? []
              : ['Days since placement, what is due and what counts as a first day are judged anew.']),
          ].join(' ')}
          value={placed}
          onChange={setPlaced}
          fault={own.placedAt ?? faultOf(sending.fault, 'placedAt')}
        />
        <TextField
          label="Why"
          size={44}
          maxLength={500}
          value={why}
          onChange={setWhy}
          fault={own.why ?? faultOf(sending.fault, 'why')}
        />
      </DialogForm>
    </PatientDialog>
  )
}
