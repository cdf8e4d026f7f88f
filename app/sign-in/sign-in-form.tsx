'use client'

import { useEffect, useState } from 'react'
import { DoorForm } from '@/app/ui/door/door-form.tsx'
import { useDoor } from '@/app/ui/door/use-door.ts'
import { Field } from '@/app/ui/parts/field.tsx'

export function SignInForm({ next }: { next: string }) {
  // A whole page load, so that nothing of an earlier person stays in memory.
  const { send, isSending, fault } = useDoor('/api/auth/sign-in/email', () => window.location.assign(next))
  const [isOpenWire, setOpenWire] = useState(false)
  useEffect(() => setOpenWire(!window.isSecureContext), [])
  return (
    <>
      {isOpenWire ? (
        <p role="alert">
          This address is not encrypted (http), so your browser will not keep you signed in. Ask your
          administrator for the https address.
        </p>
      ) : null}
      <DoorForm main="Sign in" isSending={isSending} fault={fault} onSend={send}>
        <Field label="E-mail address">
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
        <Field label="Password">
          {(wired) => (
            <input {...wired} name="password" type="password" autoComplete="current-password" required />
          )}
        </Field>
      </DoorForm>
      <p>
        <a href="/forgot-password">I do not know my password</a>
      </p>
    </>
  )
}
