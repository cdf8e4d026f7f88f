'use client'

import { useState } from 'react'
import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import { kindLabels } from '@/lib/domain/labels.ts'
import type { DrainKind } from '@/lib/domain/words.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import css from './discharges.module.css'

const empty = {
  name: '',
  birthDate: '',
  recordNumber: '',
  dischargedOn: '',
  phone: '',
  note: '',
  drainKind: '' as DrainKind | '',
}
const needed = {
  name: 'The full name.',
  birthDate: 'The birth date.',
  recordNumber: 'The record number.',
  dischargedOn: 'The day.',
}

/** One who went home with a drain, typed. */
export function AddForm({ onDone }: { onDone: (says: string) => void }) {
  const [draft, setDraft] = useState(empty)
  const [own, setOwn] = useState<Record<string, string>>({})
  const { send, isSending, fault } = useSend('/api/discharges', z.unknown(), () =>
    onDone(`${draft.name.trim()} is on the list.`),
  )
  const text = (name: Exclude<keyof typeof empty, 'drainKind'>) => ({
    value: draft[name],
    onChange: (value: string) => setDraft((before) => ({ ...before, [name]: value })),
    fault: own[name] ?? faultOf(fault, name),
  })
  const submit = () => {
    const found = Object.fromEntries(
      Object.entries(needed).filter(([name]) => !draft[name as keyof typeof needed].trim()),
    )
    setOwn(found)
    if (Object.keys(found).length > 0 || fault?.stored) return
    const { drainKind, phone, note, ...rest } = draft
    send({ ...rest, phone: phone.trim() || null, note: note.trim() || null, drainKind: drainKind || null })
  }
  return (
    <form
      noValidate
      className={css.part}
      aria-labelledby="add-one"
      onSubmit={(event) => {
        event.preventDefault()
        submit()
      }}
    >
      <h2 id="add-one">Put somebody on the list</h2>
      <div className={form.row}>
        <TextField label="Full name" size={26} maxLength={200} {...text('name')} />
        <TextField label="Birth date" type="date" {...text('birthDate')} />
        <TextField label="Record number" size={14} maxLength={40} {...text('recordNumber')} />
        <TextField label="Went home on" type="date" {...text('dischargedOn')} />
        <Field label="Drain" fault={faultOf(fault, 'drainKind')}>
          {(wired) => (
            <Select
              {...wired}
              value={draft.drainKind}
              onChange={(drainKind) => setDraft((before) => ({ ...before, drainKind }))}
              labels={kindLabels}
              empty="not said"
            />
          )}
        </Field>
        <TextField label="Phone" type="tel" size={16} maxLength={40} {...text('phone')} />
        <TextField label="Note" size={30} maxLength={300} {...text('note')} />
      </div>
      {fault ? (
        <p role="alert" className={form.fault}>
          {fault.text}
        </p>
      ) : null}
      <p>
        <button type="submit" aria-disabled={isSending}>
          {isSending ? 'Sending' : 'Put on the list'}
        </button>
      </p>
    </form>
  )
}
