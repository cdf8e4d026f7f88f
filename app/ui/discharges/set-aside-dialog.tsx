'use client'

import { useState } from 'react'
import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import type { Discharge } from '@/lib/domain/discharge.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { Dialog } from '../parts/dialog.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'
import { TextField } from '../parts/text-field.tsx'

type Props = { discharge: Discharge; onClose: () => void; onDone: (says: string) => void }

/** Takes somebody off the list who is not to be enrolled, for a reason. */
export function SetAsideDialog({ discharge, onClose, onDone }: Props) {
  const [why, setWhy] = useState('')
  const [isMissing, setMissing] = useState(false)
  const { send, isSending, fault } = useSend(`/api/discharges/${discharge.id}`, z.unknown(), () =>
    onDone(`${discharge.name} is set aside.`),
  )
  return (
    <Dialog
      title={`Set aside ${discharge.name}`}
      about={`${fullDate(discharge.birthDate)} · ${discharge.recordNumber}`}
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          setMissing(!why.trim())
          if (why.trim() && !fault?.stored) send({ why: why.trim() })
        }}
      >
        <div className={form.form}>
          <TextField
            label="Why"
            hint="such as: drain taken out on the ward; followed by another clinic"
            size={50}
            maxLength={500}
            value={why}
            onChange={setWhy}
            fault={isMissing ? 'Say why; it is kept.' : faultOf(fault, 'why')}
          />
        </div>
        <FormFoot main="Set aside" isSending={isSending} fault={fault} shown={['why']} onClose={onClose} />
      </form>
    </Dialog>
  )
}
