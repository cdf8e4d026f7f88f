'use client'

import { useState } from 'react'
import type { Handover, HandoverSheet } from '@/lib/domain/handover.ts'
import { signatures } from '@/lib/domain/handover-lines.ts'
import { when } from '@/lib/domain/local-time.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import css from './handover.module.css'
import type { Stepper } from './use-step.ts'

type Props = { staff: StaffMember; sheet: HandoverSheet; waiting: number; stepper: Stepper }

const rows = (n: number) => (n === 1 ? '1 row' : `${n} rows`)

/** Who gives, who takes, the note, and what each of them can do now. */
export function Panel({ staff, sheet, waiting, stepper }: Props) {
  const { handover, asOf, clinic } = sheet
  if (!handover) return <OpenForm waiting={waiting} stepper={stepper} />
  const isGiver = handover.givenBy.id === staff.id
  const [given, taken] = signatures(handover, clinic.timeZone)
  const mayWithdraw = isGiver || may(staff.role, 'override-take')
  const mySign = isGiver ? handover.givenAt : handover.takenBy?.id === staff.id ? handover.takenAt : null
  const maySign = mySign === null && (isGiver || handover.takenBy === null)
  return (
    <section aria-labelledby="signing" className={css.panel}>
      <h2 id="signing">
        Opened by {handover.givenBy.name}, {when(handover.openedAt, Date.parse(asOf), clinic.timeZone)}
      </h2>
      <ul className={css.signatures}>
        <li>{given}</li>
        <li>{taken}</li>
      </ul>
      <p className={waiting > 0 ? css.staying : undefined}>
        {waiting > 0
          ? `${rows(waiting)} at once or within 1 hour not accepted by anybody: ${waiting === 1 ? 'it stays' : 'they stay'} with ${handover.givenBy.name}.`
          : 'Every row at once or within 1 hour is accepted by name.'}
      </p>
      {isGiver ? (
        <NoteForm key={handover.note} handover={handover} stepper={stepper} />
      ) : handover.note ? (
        <p className={css.note}>
          <b>Note of {handover.givenBy.name}:</b> {handover.note}
        </p>
      ) : null}
      <p className={css.tools}>
        {maySign ? (
          <button
            type="button"
            data-main
            aria-disabled={stepper.isBusy}
            onClick={() => stepper.step(handover.id, { step: 'sign' }, 'You have signed.')}
          >
            {isGiver ? 'Sign: I give this shift' : 'Sign: I take this shift'}
          </button>
        ) : null}
        {mySign !== null ? <span>You have signed. It is over when the other one signs, too.</span> : null}
        {mayWithdraw ? (
          <button
            type="button"
            data-quiet
            aria-disabled={stepper.isBusy}
            onClick={() => stepper.step(handover.id, { step: 'withdraw' }, 'The handover is withdrawn.')}
          >
            Withdraw
          </button>
        ) : null}
      </p>
      {isGiver ? null : (
        <p className={css.hint}>
          Accept each row below that is at once or within 1 hour. <kbd>↓</kbd> and <kbd>↑</kbd> go from one
          Accept to the next.
        </p>
      )}
    </section>
  )
}

function OpenForm({ waiting, stepper }: { waiting: number; stepper: Stepper }) {
  const [note, setNote] = useState('')
  return (
    <form
      className={`${css.panel} ${css.opening}`}
      aria-labelledby="opening"
      onSubmit={(event) => {
        event.preventDefault()
        stepper.open(note)
      }}
    >
      <h2 id="opening">Hand this shift over</h2>
      <p>
        {waiting > 0
          ? `${rows(waiting)} at once or within 1 hour: somebody else must accept each by name, or it stays with you.`
          : 'Nothing is at once or within 1 hour.'}
      </p>
      <NoteField note={note} onChange={setNote} />
      <p className={css.tools}>
        <button type="submit" aria-disabled={stepper.isBusy}>
          Open the handover
        </button>
      </p>
    </form>
  )
}

function NoteForm({ handover, stepper }: { handover: Handover; stepper: Stepper }) {
  const [note, setNote] = useState(handover.note)
  return (
    <form
      className={form.stack}
      onSubmit={(event) => {
        event.preventDefault()
        stepper.step(handover.id, { step: 'note', note }, 'The note is kept.')
      }}
    >
      <NoteField note={note} onChange={setNote} />
      <p className={css.paper}>{handover.note}</p>
      {note === handover.note ? null : (
        <p>
          <button type="submit" aria-disabled={stepper.isBusy}>
            Keep the note
          </button>
        </p>
      )}
    </form>
  )
}

function NoteField({ note, onChange }: { note: string; onChange: (note: string) => void }) {
  return (
    <Field label="Note for the next shift">
      {(wired) => (
        <textarea
          {...wired}
          rows={2}
          maxLength={4000}
          value={note}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </Field>
  )
}
