'use client'

import { type ReactNode, useState } from 'react'
import type { SendFault } from '@/lib/client/use-send.ts'
import { Dialog } from './dialog.tsx'
import form from './form.module.css'
import { FormFoot, faultOf } from './form-foot.tsx'
import { TextField } from './text-field.tsx'

type Props = {
  title: string
  about?: string
  hint?: string
  main: string
  sending: { isSending: boolean; fault: SendFault | null }
  onWhy: (why: string) => void
  onClose: () => void
  /** What follows from the step, above the reason. */
  children?: ReactNode
}

/** A step that asks for nothing but the reason; without one it is not taken. */
export function WhyDialog({ title, about, hint, main, sending, onWhy, onClose, children }: Props) {
  const { isSending, fault } = sending
  const [why, setWhy] = useState('')
  const [isMissing, setMissing] = useState(false)
  return (
    <Dialog title={title} about={about} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          setMissing(why.trim() === '')
          if (why.trim() !== '' && !fault?.stored) onWhy(why.trim())
        }}
      >
        <div className={form.form}>
          {children}
          <TextField
            label="Why"
            hint={hint}
            size={50}
            maxLength={500}
            value={why}
            onChange={setWhy}
            fault={isMissing ? 'Say why; it is kept.' : faultOf(fault, 'why')}
          />
        </div>
        <FormFoot main={main} isSending={isSending} fault={fault} shown={['why']} onClose={onClose} />
      </form>
    </Dialog>
  )
}
