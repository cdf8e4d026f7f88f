'use client'

import { useState } from 'react'
import type { useHold } from '@/lib/client/use-hold.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import { Dialog } from '../parts/dialog.tsx'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'

type Props = {
  patientId: string
  name: string
  holder: string
  hold: ReturnType<typeof useHold>
  onClose: () => void
}

/** The charge nurse takes a row from somebody, for a reason that is kept. */
export function OverruleDialog({ patientId, name, holder, hold, onClose }: Props) {
  const [reason, setReason] = useState('')
  const fault = hold.error ? faultFrom(hold.error) : null
  return (
    <Dialog
      title={`Take over ${name}`}
      about={`${holder} has this row and will see that you took it.`}
      onClose={onClose}
    >
      <form
        onSubmit={(event) => {
          event.preventDefault()
          if (!hold.isPending) hold.mutate({ patientId, step: 'override', reason }, { onSuccess: onClose })
        }}
      >
        <div className={form.form}>
          <Field label="Reason" fault={faultOf(fault, 'reason')}>
            {(wired) => (
              <textarea
                {...wired}
                value={reason}
                onChange={(event) => setReason(event.target.value)}
                maxLength={500}
                required
              />
            )}
          </Field>
        </div>
        <FormFoot
          main="Take over"
          isSending={hold.isPending}
          fault={fault}
          shown={['reason']}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}
