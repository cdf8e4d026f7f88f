'use client'

import { useState } from 'react'
import { z } from 'zod'
import { eventsDoor } from '@/lib/client/outcomes-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { dayAndTime, fullDate } from '@/lib/domain/local-time.ts'
import { outsideEventLabels, type ShownEvent } from '@/lib/domain/outcomes-page.ts'
import { Dialog } from '../../parts/dialog.tsx'
import form from '../../parts/form.module.css'
import { FormFoot, faultOf } from '../../parts/form-foot.tsx'
import { TextField } from '../../parts/text-field.tsx'

type Props = { shown: ShownEvent; onClose: () => void; onDone: (says: string) => void }

/** An event no longer counts, for a reason. It stays readable. */
export function WithdrawDialog({ shown, onClose, onDone }: Props) {
  const { event, name, birthDate, recordNumber, timeZone } = shown
  const [why, setWhy] = useState('')
  const [isMissing, setMissing] = useState(false)
  const { send, isSending, fault } = useSend(
    `${eventsDoor(shown.patientId)}/${encodeURIComponent(event.id)}`,
    z.unknown(),
    () => onDone(`${name}: the event is withdrawn.`),
  )
  return (
    <Dialog
      title={`Withdraw: ${outsideEventLabels[event.kind].toLowerCase()}, ${dayAndTime(event.at, timeZone)}`}
      about={`${name} · ${fullDate(birthDate)} · ${recordNumber}`}
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(press) => {
          press.preventDefault()
          setMissing(!why.trim())
          if (why.trim() && !fault?.stored) send({ why: why.trim() })
        }}
      >
        <div className={form.form}>
          <TextField
            label="Why"
            hint="The event stays readable and no longer counts."
            size={50}
            maxLength={500}
            value={why}
            onChange={setWhy}
            fault={isMissing ? 'Say why; it is kept.' : faultOf(fault, 'why')}
          />
        </div>
        <FormFoot main="Withdraw" isSending={isSending} fault={fault} shown={['why']} onClose={onClose} />
      </form>
    </Dialog>
  )
}
