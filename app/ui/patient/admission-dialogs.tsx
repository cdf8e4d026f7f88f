'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { type DrainFound, foundDrainLabels } from '@/lib/domain/admission.ts'
import { inPlace } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import { dayAndTime, inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { Choice, Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; now: number; onClose: () => void; onDone: (says: string) => void }

/** The patient is in hospital: since when, and where. */
export function AdmitDialog({ page, now, onClose, onDone }: Props) {
  const { patient, clinic } = page
  const [at, setAt] = useState(() => inputTime(now, clinic.timeZone))
  const [place, setPlace] = useState('')
  const [faults, setFaults] = useState<{ at?: string }>({})
  const sending = useSend(`${patientDoor(patient.id)}/admission`, z.unknown(), () =>
    onDone('In hospital: the deadlines rest, the flags stay.'),
  )
  const submit = () => {
    const instant = instantOf(at, clinic.timeZone)
    setFaults(instant ? {} : { at: 'Give a day and a time.' })
    if (instant) sending.send({ at: instant, ...(place.trim() ? { place: place.trim() } : {}) })
  }
  return (
    <PatientDialog patient={patient} title="In hospital:" onClose={onClose}>
      <DialogForm
        main="Let the deadlines rest"
        sending={sending}
        shown={['at', 'place']}
        onSubmit={submit}
        onClose={onClose}
      >
        <Field label="Since, clinic time" fault={faults.at ?? faultOf(sending.fault, 'at')}>
          {(wired) => (
            <input
              {...wired}
              type="datetime-local"
              value={at}
              onChange={(event) => setAt(event.target.value)}
            />
          )}
        </Field>
        <TextField
          label="Where, if known"
          size={36}
          maxLength={200}
          value={place}
          onChange={setPlace}
          fault={faultOf(sending.fault, 'place')}
        />
        <p className={form.hint}>
          The row stays in sight in a part of its own, without an act by; no reminder goes out and nobody is
          called at night. A report that comes still shows there. Until every drain is confirmed again.
        </p>
      </DialogForm>
    </PatientDialog>
  )
}

type Answer = { found: DrainFound | null; at: string }

/** The patient is home again: every drain is confirmed, with when it was so. */
export function HomeDialog({ page, now, onClose, onDone }: Props) {
  const { patient, clinic, admission } = page
  const drains = inPlace(page)
  const [answers, setAnswers] = useState<Record<string, Answer>>(() =>
    Object.fromEntries(drains.map(({ id }) => [id, { found: null, at: inputTime(now, clinic.timeZone) }])),
  )
  const [faults, setFaults] = useState<Record<string, string>>({})
  const sending = useSend(
    `${patientDoor(patient.id)}/admission`,
    z.unknown(),
    () => onDone('Home again: the drains are confirmed, and the deadlines count from now.'),
    undefined,
    'DELETE',
  )
  const answer = (id: string, part: Partial<Answer>) =>
    setAnswers((before) => ({ ...before, [id]: { found: null, at: '', ...before[id], ...part } }))
  const submit = () => {
    const wrong: Record<string, string> = {}
    const said = drains.map(({ id }) => {
      const { found, at } = answers[id] ?? { found: null, at: '' }
      const instant = instantOf(at, clinic.timeZone)
      if (!found) wrong[id] = 'Say how it was found.'
      if (!instant) wrong[`${id} at`] = 'Give a day and a time.'
      return { drain: id, found, at: instant }
    })
    setFaults(wrong)
    if (Object.keys(wrong).length === 0) sending.send({ drains: said })
  }
  return (
    <PatientDialog patient={patient} title="Home again:" onClose={onClose}>
      <DialogForm
        main="Confirm the drains"
        sending={sending}
        shown={['drains']}
        onSubmit={submit}
        onClose={onClose}
      >
        {admission ? (
          <p>
            In hospital since {dayAndTime(admission.since, clinic.timeZone)}
            {admission.place ? `, ${admission.place}` : ''}. What is flagged stands until each drain is
            confirmed.
          </p>
        ) : null}
        {drains.length === 0 ? <p>No drain is in place by the record.</p> : null}
        {drains.map(({ id }, i) => (
          <div key={id} className={form.row}>
            <Group
              legend={capital(page.labels[id]?.label ?? id)}
              fault={faults[id] ?? faultOf(sending.fault, `drains[${i}].found`)}
            >
              {(Object.keys(foundDrainLabels) as DrainFound[]).map((found) => (
                <Choice
                  key={found}
                  type="radio"
                  name={`found ${id}`}
                  checked={answers[id]?.found === found}
                  onChange={() => answer(id, { found })}
                >
                  {foundDrainLabels[found]}
                </Choice>
              ))}
            </Group>
            <Field
              label="When, clinic time"
              fault={faults[`${id} at`] ?? faultOf(sending.fault, `drains[${i}].at`)}
            >
              {(wired) => (
                <input
                  {...wired}
                  type="datetime-local"
                  value={answers[id]?.at ?? ''}
                  onChange={(event) => answer(id, { at: event.target.value })}
                />
              )}
            </Field>
          </div>
        ))}
        <p className={form.hint}>
          ‘Still in place’ records that its position was checked. The act by of what still stands is counted
          anew from now.
        </p>
      </DialogForm>
    </PatientDialog>
  )
}
