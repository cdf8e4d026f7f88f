'use client'

import { useState } from 'react'
import { DoorForm } from '@/app/ui/door/door-form.tsx'
import { useDoor } from '@/app/ui/door/use-door.ts'
import { Field } from '@/app/ui/parts/field.tsx'

export function ForgotForm() {
  const [isSent, setSent] = useState(false)
  const { send, isSending, fault } = useDoor('/api/auth/request-password-reset', () => setSent(true))
  if (isSent)
    return (
      <p role="status">
        If this address has an account, a letter with a link is on its way. It holds an hour and works once.
        Nothing in the mail? Ask your administrator.
      </p>
    )
  return (
    <DoorForm main="Send me a link" isSending={isSending} fault={fault} onSend={send}>
      <Field label="E-mail address" fault={fault?.field?.message}>
        {(wired) => (
          <input
            {...wired}
            name="email"
            type="email"
            autoComplete="username"
            autoCapitalize="none"
            spellCheck={false}
            required
          />
        )}
      </Field>
    </DoorForm>
  )
}
