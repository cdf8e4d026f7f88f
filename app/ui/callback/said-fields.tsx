'use client'

import { useState } from 'react'
import type { SendFault } from '@/lib/client/use-send.ts'
import { Agreed, type AttemptOutcome, SpokenNow } from '@/lib/domain/callback.ts'
import { agreedLabels, outcomeLabels, spokenLabels } from '@/lib/domain/labels.ts'
import { Choice, Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { type CallDraft, type DraftFaults, quickPicks } from './draft.ts'

export type SaidProps = {
  draft: CallDraft
  set: (part: Partial<CallDraft>) => void
  faults: DraftFaults
  fault: SendFault | null
}

const toggled = <T,>(list: readonly T[], one: T, on: boolean): T[] =>
  on ? [...list, one] : list.filter((other) => other !== one)

/** How an attempt ended. */
export function OutcomeField({
  draft,
  set,
  faults,
  fault,
  outcomes,
}: SaidProps & { outcomes: readonly AttemptOutcome[] }) {
  return (
    <Group legend="How it ended" fault={faults.outcome ?? faultOf(fault, 'outcome')}>
      {outcomes.map((outcome) => (
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
  )
}

/** Who was spoken to, how, and what was agreed. */
export function SpokenFields({
  draft,
  set,
  faults,
  fault,
  needsInterpreter,
}: SaidProps & { needsInterpreter: boolean }) {
  const isBooked = draft.agreed.includes('exchange-booked') || draft.agreed.includes('removal-booked')
  return (
    <>
      <Group legend="Spoken to" fault={faults.spokenTo ?? faultOf(fault, 'spokenTo')}>
        {SpokenNow.options.map((who) => (
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
        <Choice type="checkbox" checked={draft.interpreter} onChange={(interpreter) => set({ interpreter })}>
          An interpreter helped{needsInterpreter ? ' (the chart asks for one)' : ''}
        </Choice>
      </Group>
      <Group
        legend="Agreed"
        hint={isBooked ? 'Note the day under Visits too: the reminder goes on until then.' : undefined}
        fault={faults.agreed ?? faultOf(fault, 'agreed')}
      >
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
      <Group legend="Said back in their own words what was agreed" fault={faultOf(fault, 'teachBack')}>
        {(
          [
            [true, 'Yes'],
            [false, 'No'],
            [null, 'Not asked'],
          ] as const
        ).map(([teachBack, text]) => (
          <Choice
            key={text}
            type="radio"
            name="teachBack"
            checked={draft.teachBack === teachBack}
            onChange={() => set({ teachBack })}
          >
            {text}
          </Choice>
        ))}
      </Group>
    </>
  )
}

/** When to look again, by the clinic's clock. */
export function LookAgainField({
  draft,
  set,
  faults,
  fault,
  isDue,
  now,
  clinicZone,
}: SaidProps & { isDue: boolean; now: number; clinicZone: string }) {
  const [picks] = useState(() => quickPicks(now, clinicZone))
  return (
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
  )
}

export function NoteField({ draft, set, fault }: Omit<SaidProps, 'faults'>) {
  return (
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
  )
}
