'use client'

import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { minutesDoor, minutesQuery } from '@/lib/client/minutes-query.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { type MinutesPage, needsReason, openText } from '@/lib/domain/week-minutes.ts'
import { Field } from '../../parts/field.tsx'
import { faultOf } from '../../parts/form-foot.tsx'
import { TextField } from '../../parts/text-field.tsx'
import audit from '../audit.module.css'
import css from './minutes.module.css'

type Props = { page: MinutesPage; onDone: (says: string) => void; onCancel: (() => void) | null }

/** Decisions, and the signature under what stands above. What changed meanwhile is read again, with the text kept. */
export function SignForm({ page, onDone, onCancel }: Props) {
  const { week, now, hash, signed } = page
  const [newest] = signed
  const client = useQueryClient()
  const [decisions, setDecisions] = useState(newest?.minutes?.decisions ?? '')
  const [unreadWhy, setUnreadWhy] = useState('')
  const [why, setWhy] = useState('')
  const [isTried, setTried] = useState(false)
  const { send, isSending, fault } = useSend(minutesDoor(week), z.unknown(), () =>
    onDone(
      newest ? 'The amendment is signed; what it amends stays readable below.' : 'The minutes are signed.',
    ),
  )
  const asksUnread = needsReason(now.verdicts)
  const isShort = (asksUnread && unreadWhy.trim() === '') || (newest !== undefined && why.trim() === '')
  return (
    <form
      noValidate
      className={css.form}
      onSubmit={(event) => {
        event.preventDefault()
        setTried(true)
        if (isShort || fault?.stored) return
        send({
          cutOff: now.cutOff,
          seen: hash,
          decisions: decisions.trim(),
          ...(asksUnread ? { unreadWhy: unreadWhy.trim() } : {}),
          ...(newest ? { amends: newest.id, why: why.trim() } : {}),
        })
      }}
    >
      <Field
        label="Decisions"
        hint="One a line. They are signed as they stand."
        fault={faultOf(fault, 'decisions')}
      >
        {(wired) => (
          <textarea
            {...wired}
            rows={4}
            maxLength={4000}
            value={decisions}
            onChange={(event) => setDecisions(event.target.value)}
          />
        )}
      </Field>
      {asksUnread ? (
        <TextField
          label="Why it is signed before all was read"
          hint={openText(now.verdicts).join(' ')}
          size={60}
          maxLength={500}
          value={unreadWhy}
          onChange={setUnreadWhy}
          fault={isTried && unreadWhy.trim() === '' ? 'Say why.' : faultOf(fault, 'unreadWhy')}
        />
      ) : null}
      {newest ? (
        <TextField
          label="Why it is amended"
          size={60}
          maxLength={500}
          value={why}
          onChange={setWhy}
          fault={isTried && why.trim() === '' ? 'Say why.' : faultOf(fault, 'why')}
        />
      ) : null}
      {fault ? (
        <div role="alert" className={audit.notice}>
          <p>{fault.text}</p>
          <button
            type="button"
            onClick={() => client.invalidateQueries({ queryKey: minutesQuery(week).queryKey })}
          >
            Read it again
          </button>
        </div>
      ) : null}
      <p className={audit.tools}>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Sending' : newest ? 'Sign the amendment' : 'Sign the minutes'}
        </button>
        {onCancel ? (
          <button type="button" onClick={onCancel}>
            Cancel
          </button>
        ) : null}
      </p>
    </form>
  )
}
