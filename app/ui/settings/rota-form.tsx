'use client'

import { useState } from 'react'
import { useSend } from '@/lib/client/use-send.ts'
import { inputTime, instantOf } from '@/lib/domain/local-time.ts'
import { RotaPage } from '@/lib/domain/rota.ts'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'
import settings from './settings.module.css'

type Props = { page: RotaPage; zone: string; onAdded: (name: string) => void }

/** A shift to add; it begins with the first stretch in which nobody is on call. */
export function RotaForm({ page, zone, onAdded }: Props) {
  const [gap] = page.gaps ?? []
  const [draft, setDraft] = useState({
    name: '',
    email: '',
    phone: '',
    rank: '1',
    from: gap ? inputTime(gap.from, zone) : '',
    until: gap ? inputTime(gap.until, zone) : '',
  })
  const [isTimeless, setTimeless] = useState(false)
  const { send, isSending, fault } = useSend('/api/rota', RotaPage, () => onAdded(draft.name.trim()))
  const instants = { from: instantOf(draft.from, zone), until: instantOf(draft.until, zone) }
  const missing = (name: keyof typeof draft) =>
    isTimeless && (name === 'from' || name === 'until') && !instants[name]
      ? 'Give a day and a time.'
      : undefined
  const text = (name: keyof typeof draft) => ({
    value: draft[name],
    fault: missing(name) ?? faultOf(fault, name),
    onChange: (value: string) => setDraft({ ...draft, [name]: value }),
  })
  return (
    <form
      noValidate
      className={settings.form}
      onSubmit={(event) => {
        event.preventDefault()
        const { from, until } = instants
        setTimeless(!from || !until)
        if (fault?.stored || !from || !until) return
        send({
          name: draft.name,
          email: draft.email.trim() || null,
          phone: draft.phone.trim() || null,
          rank: Number(draft.rank),
          from,
          until,
        })
      }}
    >
      <div className={form.row}>
        <TextField label="Name" size={26} maxLength={120} {...text('name')} />
        <TextField label="Rank" type="number" min={1} max={9} hint="1 is told first" {...text('rank')} />
        <TextField label="From" type="datetime-local" {...text('from')} />
        <TextField label="Until" type="datetime-local" {...text('until')} />
      </div>
      <div className={form.row}>
        <TextField label="E-mail" type="email" size={30} {...text('email')} />
        <TextField
          label="Phone for text messages"
          type="tel"
          size={18}
          maxLength={40}
          hint="through the clinic’s own gateway"
          {...text('phone')}
        />
      </div>
      {fault ? (
        <p role="alert" className={form.trouble}>
          {fault.text}
        </p>
      ) : null}
      <p>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Adding' : 'Add the shift'}
        </button>
      </p>
    </form>
  )
}
