'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { inPlace } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import { visitLabels } from '@/lib/domain/labels.ts'
import { inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { VisitKind, type VisitState } from '@/lib/domain/visit.ts'
import { Choice, Field, Group } from '../parts/field.tsx'
import { faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'
import { isOpenVisit, visitText } from './visit-text.ts'

type Props = { page: PatientPage; now: number; onClose: () => void; onDone: (says: string) => void }
type Faults = Partial<Record<'drain' | 'kind' | 'state' | 'at', string>>

/** What can be done with a visit that stands, and with one that begins. */
const steps: Readonly<Record<'begun' | 'fresh', readonly [VisitState, string][]>> = {
  begun: [
    ['booked', 'Book, or move to another time'],
    ['done', 'It was done'],
    ['cancelled', 'Call it off'],
  ],
  fresh: [
    ['requested', 'Ask for it'],
    ['booked', 'Book it'],
  ],
}
const effects: Readonly<Record<VisitState, string>> = {
  requested: 'It is noted; the reminder goes on until it is booked.',
  booked: 'The reminder of it is silent until then.',
  done: 'The drain’s own event is recorded with it: a new tube, or its removal.',
  cancelled: 'The reminder of it comes back.',
}

/** Exchanges and removals: asked for, booked, moved, done, called off. */
export function VisitsDialog({ page, now, onClose, onDone }: Props) {
  const { patient, clinic, labels } = page
  const open = page.visits.filter(isOpenVisit)
  const drains = inPlace(page)
  const [visit, setVisit] = useState(open[0]?.id ?? '')
  const [drain, setDrain] = useState(drains.length === 1 ? (drains[0]?.id ?? '') : '')
  const [kind, setKind] = useState<VisitKind | null>(null)
  const [state, setState] = useState<VisitState | null>(null)
  const [at, setAt] = useState('')
  const [why, setWhy] = useState('')
  const [faults, setFaults] = useState<Faults>({})
  const begun = open.find(({ id }) => id === visit)
  const sending = useSend(`${patientDoor(patient.id)}/visits`, z.unknown(), () =>
    onDone('The visit is noted.'),
  )
  const { fault } = sending
  const isTimed = state === 'booked' || state === 'done'

  const choose = (next: VisitState) => {
    setState(next)
    setAt(next === 'done' ? inputTime(now, clinic.timeZone) : '')
  }
  const submit = () => {
    const instant = instantOf(at, clinic.timeZone)
    const found: Faults = {
      ...(begun || drain ? {} : { drain: 'Say which drain.' }),
      ...(begun || kind ? {} : { kind: 'Say which visit.' }),
      ...(state ? {} : { state: 'Say what happens with it.' }),
      ...(isTimed && !instant ? { at: 'Give a day and a time.' } : {}),
    }
    setFaults(found)
    if (Object.keys(found).length > 0) return
    sending.send({
      ...(begun ? { visit: begun.id } : {}),
      drain: begun?.drain ?? drain,
      kind: begun?.kind ?? kind,
      state,
      ...(isTimed ? { at: instant } : {}),
      ...(why.trim() ? { why: why.trim() } : {}),
    })
  }

  return (
    <PatientDialog patient={patient} title="Visits of" onClose={onClose}>
      <DialogForm
        main="Note the visit"
        sending={sending}
        shown={['drain', 'kind', 'state', 'at', 'why']}
        onSubmit={submit}
        onClose={onClose}
      >
        {open.length > 0 ? (
          <Group legend="Visit">
            {open.map((one) => (
              <Choice
                key={one.id}
                type="radio"
                name="visit"
                checked={visit === one.id}
                onChange={() => {
                  setVisit(one.id)
                  setState(null)
                }}
              >
                {visitText(one, page, now)}
              </Choice>
            ))}
            <Choice
              type="radio"
              name="visit"
              checked={begun === undefined}
              onChange={() => {
                setVisit('')
                setState(null)
              }}
            >
              A new one
            </Choice>
          </Group>
        ) : null}
        {begun ? null : (
          <>
            {drains.length > 1 ? (
              <Group legend="Drain" fault={faults.drain ?? faultOf(fault, 'drain')}>
                {drains.map(({ id }) => (
                  <Choice
                    key={id}
                    type="radio"
                    name="drain"
                    checked={drain === id}
                    onChange={() => setDrain(id)}
                  >
                    {capital(labels[id]?.label ?? id)}
                  </Choice>
                ))}
              </Group>
            ) : null}
            {drains.length === 0 ? <p role="alert">No drain is in place.</p> : null}
            <Group legend="For" fault={faults.kind ?? faultOf(fault, 'kind')}>
              {VisitKind.options.map((one) => (
                <Choice
                  key={one}
                  type="radio"
                  name="kind"
                  checked={kind === one}
                  onChange={() => setKind(one)}
                >
                  {visitLabels[one]}
                </Choice>
              ))}
            </Group>
          </>
        )}
        <Group
          legend="What happens with it"
          hint={state ? effects[state] : undefined}
          fault={faults.state ?? faultOf(fault, 'state')}
        >
          {steps[begun ? 'begun' : 'fresh'].map(([one, label]) => (
            <Choice key={one} type="radio" name="state" checked={state === one} onChange={() => choose(one)}>
              {label}
            </Choice>
          ))}
        </Group>
        {isTimed ? (
          <Field
            label={state === 'done' ? 'Done when, clinic time' : 'Booked for, clinic time'}
            fault={faults.at ?? faultOf(fault, 'at')}
          >
            {(wired) => (
              <input
                {...wired}
                type="datetime-local"
                value={at}
                onChange={(event) => setAt(event.target.value)}
              />
            )}
          </Field>
        ) : null}
        <TextField label="Why, or a note" size={44} maxLength={500} value={why} onChange={setWhy} />
      </DialogForm>
    </PatientDialog>
  )
}
