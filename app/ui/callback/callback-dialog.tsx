'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { Agreed, AttemptOutcome, SpokenTo } from '@/lib/domain/callback.ts'
import type { Flag } from '@/lib/domain/flag.ts'
import {
  agreedLabels,
  findingLabels,
  outcomeLabels,
  spokenLabels,
  urgencyLabels,
} from '@/lib/domain/labels.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { Dialog } from '../parts/dialog.tsx'
import { Choice, Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'
import {
  type CallDraft,
  type DraftFaults,
  draftFaults,
  emptyDraft,
  needsLookAgain,
  quickPicks,
  toCallback,
} from './draft.ts'

type Props = {
  patient: Pick<WorklistRow, 'patientId' | 'name' | 'birthDate' | 'recordNumber' | 'phone'>
  flags: readonly Flag[]
  /** Names of the drains by id. */
  labels: Readonly<Record<string, string>>
  clinicZone: string
  now: number
  onClose: () => void
  onRecorded: () => void
}

/** One attempt to call, recorded: how it ended, what was agreed, what it closes, when to look again. */
export function CallbackDialog({ patient, flags, labels, clinicZone, now, onClose, onRecorded }: Props) {
  const [draft, setDraft] = useState(emptyDraft)
  const [faults, setFaults] = useState<DraftFaults>({})
  const [picks] = useState(() => quickPicks(now, clinicZone))
  const { send, isSending, fault } = useSend(
    `${patientDoor(patient.patientId)}/callbacks`,
    z.unknown(),
    onRecorded,
  )
  const set = (part: Partial<CallDraft>) => setDraft((before) => ({ ...before, ...part }))
  const toggled = <T,>(list: T[], one: T, on: boolean) =>
    on ? [...list, one] : list.filter((other) => other !== one)
  const isReached = draft.outcome === 'reached'
  const isDue = needsLookAgain(flags, draft.closes)

  return (
    <Dialog
      title={`Call to ${patient.name}`}
      about={`${fullDate(patient.birthDate)} · ${patient.recordNumber}${patient.phone ? ` · ${patient.phone}` : ''}`}
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          const found = draftFaults(draft, flags, now, clinicZone)
          setFaults(found)
          if (Object.keys(found).length === 0 && !fault?.stored) send(toCallback(draft, clinicZone))
        }}
      >
        <div className={form.form}>
          <Group legend="How it ended" fault={faults.outcome ?? faultOf(fault, 'outcome')}>
            {AttemptOutcome.options.map((outcome) => (
              <Choice
                key={outcome}
                type="radio"
                name="outcome"
                checked={draft.outcome === outcome}
                onChange={() => set({ outcome })}
              >
                {outcomeLabels[outcome]}
              </Choice>
            ))}
          </Group>
          {isReached ? (
            <>
              <Group legend="Spoken to" fault={faults.spokenTo ?? faultOf(fault, 'spokenTo')}>
                {SpokenTo.options.map((who) => (
                  <Choice
                    key={who}
                    type="radio"
                    name="spokenTo"
                    checked={draft.spokenTo === who}
                    onChange={() => set({ spokenTo: who })}
                  >
                    {spokenLabels[who]}
                  </Choice>
                ))}
              </Group>
              <Group legend="Agreed" fault={faults.agreed ?? faultOf(fault, 'agreed')}>
                {Agreed.options.map((one) => (
                  <Choice
                    key={one}
                    type="checkbox"
                    checked={draft.agreed.includes(one)}
                    onChange={(on) => set({ agreed: toggled(draft.agreed, one, on) })}
                  >
                    {agreedLabels[one]}
                  </Choice>
                ))}
              </Group>
              {flags.length > 0 ? (
                <Closes
                  flags={flags}
                  labels={labels}
                  draft={draft}
                  set={set}
                  fault={faultOf(fault, 'closes')}
                />
              ) : null}
              <Field
                label={isDue ? 'Look again at (needed)' : 'Look again at'}
                hint="Clinic time. The row comes back then, whatever the rules say."
                fault={faults.lookAgain ?? faultOf(fault, 'lookAgainAt')}
              >
                {(wired) => (
                  <span className={form.row}>
                    <input
                      {...wired}
                      type="datetime-local"
                      value={draft.lookAgain}
                      onChange={(event) => set({ lookAgain: event.target.value })}
                    />
                    {picks.map(({ text, value }) => (
                      <button key={text} type="button" data-quiet onClick={() => set({ lookAgain: value })}>
                        {text}
                      </button>
                    ))}
                  </span>
                )}
              </Field>
            </>
          ) : null}
          {draft.outcome !== null && !isReached ? (
            <p className={form.hint}>Not reached closes nothing: the row stays and shows this try.</p>
          ) : null}
          <Field label="Note" fault={faultOf(fault, 'note')}>
            {(wired) => (
              <textarea
                {...wired}
                maxLength={4000}
                value={draft.note}
                onChange={(event) => set({ note: event.target.value })}
              />
            )}
          </Field>
        </div>
        <FormFoot
          main="Record the call"
          isSending={isSending}
          fault={fault}
          shown={['outcome', 'spokenTo', 'agreed', 'closes', 'lookAgainAt', 'note']}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}

type ClosesProps = Pick<Props, 'flags' | 'labels'> & {
  draft: CallDraft
  set: (part: Partial<CallDraft>) => void
  fault: string | undefined
}

/** Nothing is closed unless it is named: closing is a decision, not a by-product of the call. */
function Closes({ flags, labels, draft, set, fault }: ClosesProps) {
  const isAll = flags.every(({ id }) => draft.closes.includes(id))
  return (
    <Group
      legend="Closes"
      hint="What you leave unmarked stays on the worklist. A call that was owed is made by this one."
      fault={fault}
    >
      <div className={form.stack}>
        {flags.map(({ id, code, drain, urgency, finding }) => (
          <Choice
            key={id}
            type="checkbox"
            checked={draft.closes.includes(id)}
            onChange={(on) =>
              set({ closes: on ? [...draft.closes, id] : draft.closes.filter((other) => other !== id) })
            }
          >
            <b>{findingLabels[code]}</b>
            {drain && labels[drain] ? `, ${labels[drain]}` : ''} · {urgencyLabels[urgency].toLowerCase()}
            <br />
            <span className={form.hint}>{finding.says}</span>
          </Choice>
        ))}
        {flags.length > 1 ? (
          <Choice
            type="checkbox"
            checked={isAll}
            onChange={(on) => set({ closes: on ? flags.map(({ id }) => id) : [] })}
          >
            All of these
          </Choice>
        ) : null}
      </div>
    </Group>
  )
}
