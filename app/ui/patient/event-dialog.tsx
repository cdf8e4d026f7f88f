'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { inPlace } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import { eventLabels } from '@/lib/domain/labels.ts'
import { inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { StaffEventType } from '@/lib/domain/words.ts'
import { Choice, Field, Group } from '../parts/field.tsx'
import { faultOf } from '../parts/form-foot.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Recordable = Exclude<StaffEventType, 'flag-closed'>
const { 'flag-closed': _, ...labels } = eventLabels
const types = Object.keys(labels) as Recordable[]

/** What follows for the rules from each, said before it is stored. */
const effects: Readonly<Record<Recordable, string>> = {
  placed: 'A new tube: a new usual output begins with it.',
  exchanged: 'A new tube: a new usual output begins with it.',
  replaced: 'A new tube: a new usual output begins with it.',
  removed: 'The drain raises nothing more, and leaves the check-in page.',
  capped: 'Output is no longer expected; symptoms decide.',
  uncapped: 'Output is expected again; a new usual begins.',
  'position-checked': 'A report that it moved is answered. It does not answer a report that it is out.',
}

type Props = { page: PatientPage; now: number; onClose: () => void; onDone: (says: string) => void }

/** What was done to a drain, as staff record it. */
export function EventDialog({ page, now, onClose, onDone }: Props) {
  const { patient, clinic, record } = page
  const lying = new Set(inPlace(page).map(({ id }) => id))
  const [drain, setDrain] = useState(record.drains.length === 1 ? (record.drains[0]?.id ?? '') : '')
  const [type, setType] = useState<Recordable | null>(null)
  const [at, setAt] = useState(() => inputTime(now, clinic.timeZone))
  const [note, setNote] = useState('')
  const [faults, setFaults] = useState<{ drain?: string; type?: string; at?: string }>({})
  const sending = useSend(`${patientDoor(patient.id)}/staff-events`, z.unknown(), () => onDone(''))
  const { fault } = sending

  const submit = () => {
    const instant = instantOf(at, clinic.timeZone)
    const found = {
      ...(drain ? {} : { drain: 'Say which drain.' }),
      ...(type ? {} : { type: 'Say what was done.' }),
      ...(instant ? {} : { at: 'Give a day and a time.' }),
    }
    setFaults(found)
    if (Object.keys(found).length === 0)
      sending.send({ at: instant, drain, type, ...(note.trim() ? { note: note.trim() } : {}) })
  }

  return (
    <PatientDialog patient={patient} title="Record an event of" onClose={onClose}>
      <DialogForm
        main="Record the event"
        sending={sending}
        shown={['drain', 'type', 'at', 'note']}
        onSubmit={submit}
        onClose={onClose}
      >
        <Group legend="Drain" fault={faults.drain ?? faultOf(fault, 'drain')}>
          {record.drains.map(({ id }) => (
            <Choice key={id} type="radio" name="drain" checked={drain === id} onChange={() => setDrain(id)}>
              {capital(page.labels[id]?.label ?? id)}
              {lying.has(id) ? '' : ' (removed)'}
            </Choice>
          ))}
        </Group>
        <Group
          legend="What was done"
          hint={type ? effects[type] : undefined}
          fault={faults.type ?? faultOf(fault, 'type')}
        >
          {types.map((one) => (
            <Choice key={one} type="radio" name="type" checked={type === one} onChange={() => setType(one)}>
              {labels[one]}
            </Choice>
          ))}
        </Group>
        <Field label="When, clinic time" fault={faults.at ?? faultOf(fault, 'at')}>
          {(wired) => (
            <input
              {...wired}
              type="datetime-local"
              value={at}
              onChange={(event) => setAt(event.target.value)}
            />
          )}
        </Field>
        <Field label="Note" fault={faultOf(fault, 'note')}>
          {(wired) => (
            <textarea
              {...wired}
              maxLength={2000}
              value={note}
              onChange={(event) => setNote(event.target.value)}
            />
          )}
        </Field>
      </DialogForm>
    </PatientDialog>
  )
}
