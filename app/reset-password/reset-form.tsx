'use client'

import { useState } from 'react'
import { DoorForm } from '@/app/ui/door/door-form.tsx'
import { useDoor } from '@/app/ui/door/use-door.ts'
import { Field } from '@/app/ui/parts/field.tsx'

/** The link's token is in the fragment: it goes to the server once, with the new password, and into no log. */
export function ResetForm() {
  const [isSet, setSet] = useState(false)
  const { send, isSending, fault } = useDoor('/api/auth/reset-password', () => setSet(true))
  if (isSet)
    return (
      <p role="status">
        Your password is set, and every session of yours has ended. <a href="/sign-in">Sign in</a>
      </p>
    )
  return (
    <>
      <DoorForm
        main="Set the password"
        isSending={isSending}
        fault={fault}
        onSend={({ newPassword = '' }) => send({ newPassword, token: window.location.hash.slice(1) })}
      >
        <Field
          label="New password"
          hint="At least 15 characters. A few words that belong together nowhere are easiest to keep; a password manager may fill it in."
          fault={fault?.field?.name === 'newPassword' ? fault.field.message : undefined}
        >
          {(wired) => (
            <input {...wired} name="newPassword" type="password" autoComplete="new-password" required />
          )}
        </Field>
      </DoorForm>
      <p>
        Is the link too old? <a href="/forgot-password">Ask for a new one</a>
      </p>
    </>
  )
}
