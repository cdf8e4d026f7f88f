'use client'

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { patientQuery } from '@/lib/client/patient-query.ts'
import { noteRecordedCall } from '@/lib/client/recorded-call.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { type AskedAnswer, AttemptOutcome, CallbackRecorded } from '@/lib/domain/callback.ts'
import type { Flag } from '@/lib/domain/flag.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { nextStep } from '@/lib/domain/next-step.ts'
import { nextStepText } from '@/lib/domain/next-step-text.ts'
import { failedSince, triesFor } from '@/lib/domain/next-try.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { Dialog } from '../parts/dialog.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'
import { AskedPart } from './asked-part.tsx'
import { ClosesField } from './closes-field.tsx'
import {
  type CallDraft,
  type DraftFaults,
  draftFaults,
  emptyDraft,
  needsLookAgain,
  toCallback,
} from './draft.ts'
import { LookAgainField, NoteField, OutcomeField, SpokenFields } from './said-fields.tsx'
import { WhomFields } from './whom-fields.tsx'

type Props = {
  patient: Pick<WorklistRow, 'patientId' | 'name' | 'birthDate' | 'recordNumber' | 'phone'>
  flags: readonly Flag[]
  /** Names of the drains by id. */
  labels: Readonly<Record<string, string>>
  clinicZone: string
  now: number
  /** What was asked by the call sheet, with the answers: kept with a call that reached somebody. */
  asked?: readonly AskedAnswer[]
  onClose: () => void
  /** `withAsked`: what was asked is kept with it. */
  onRecorded: (withAsked: boolean) => void
}

const shown = [
  'direction',
  'contact',
  'outcome',
  'spokenTo',
  'agreed',
  'teachBack',
  'closes',
  'lookAgainAt',
  'note',
]

/**
 * One attempt to call, or a call that came in, recorded: whom, how it ended, what was agreed, what it closes, when to
 * look again. What is refused stays as it was typed. The contacts come with the patient's page, and the form does not
 * wait for them.
 */
export function CallbackDialog(props: Props) {
  const { patient, flags, labels, clinicZone, now, asked = [], onClose, onRecorded } = props
  const { patientId, name, birthDate, recordNumber, phone } = patient
  const { data: page } = useQuery(patientQuery(patientId))
  const [draft, setDraft] = useState(emptyDraft)
  const [faults, setFaults] = useState<DraftFaults>({})
  const [opened] = useState(flags)
  const { send, isSending, fault } = useSend(
    `${patientDoor(patientId)}/callbacks`,
    CallbackRecorded,
    (recorded) => {
      const books = draft.agreed.some((one) => one === 'exchange-booked' || one === 'removal-booked')
      noteRecordedCall({ patientId, name, recorded, books })
      onRecorded(draft.outcome === 'reached')
    },
  )
  const set = (part: Partial<CallDraft>) => setDraft((before) => ({ ...before, ...part }))
  const said = { draft, set, faults, fault }
  const gone = opened.filter(({ id }) => !flags.some((flag) => flag.id === id))
  const isReached = draft.outcome === 'reached'
  const isIncoming = draft.direction === 'they-called'

  return (
    <Dialog
      title={isIncoming ? `Call from ${name}` : `Call to ${name}`}
      about={`${fullDate(birthDate)} · ${recordNumber}${phone ? ` · ${phone}` : ''}`}
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          const standing = draft.closes.filter((id) => !gone.some((flag) => flag.id === id))
          const found = draftFaults(draft, flags, now, clinicZone)
          setFaults(found)
          if (Object.keys(found).length === 0 && !fault?.stored)
            send(toCallback({ ...draft, closes: standing }, clinicZone, asked))
        }}
      >
        <div className={form.form}>
          <WhomFields {...said} contacts={page?.patient.profile?.contacts ?? []} />
          <OutcomeField {...said} outcomes={isIncoming ? ['reached'] : AttemptOutcome.options} />
          {isReached ? (
            <>
              <SpokenFields {...said} needsInterpreter={page?.patient.interpreter === true} />
              {flags.length + gone.length > 0 ? (
                <ClosesField
                  flags={flags}
                  gone={gone}
                  labels={labels}
                  draft={draft}
                  set={set}
                  fault={faultOf(fault, 'closes')}
                />
              ) : null}
              <LookAgainField
                {...said}
                isDue={needsLookAgain(flags, draft.closes)}
                now={now}
                clinicZone={clinicZone}
              />
            </>
          ) : null}
          {draft.outcome !== null && !isReached ? (
            <p className={form.hint}>
              Not reached closes nothing: the row stays and shows this try.
              {page ? <NextLine page={page} draft={draft} now={now} /> : null}
            </p>
          ) : null}
          <AskedPart asked={asked} labels={labels} isReached={isReached} />
          <NoteField {...said} />
        </div>
        <FormFoot
          main="Record the call"
          isSending={isSending}
          fault={fault}
          shown={shown}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}

/** What the clinic's rule says comes next, once this try is counted. */
function NextLine({ page, draft, now }: { page: PatientPage; draft: CallDraft; now: number }) {
  const { noAnswer, flags, callbacks, patient, clinic } = page
  if (noAnswer === null || draft.outcome === null) return null
  const tries = triesFor(flags, failedSince(callbacks))
  const thisOne = { at: new Date(now).toISOString(), contact: draft.contact, outcome: draft.outcome }
  const next = nextStep(noAnswer, [...tries, thisOne], patient.profile?.contacts ?? [])
  return next === null ? null : <> Next by the clinic’s rule: {nextStepText(next, now, clinic.timeZone)}</>
}
