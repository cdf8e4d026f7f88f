import type { Metadata } from 'next'
import { Door } from '@/app/ui/door/door.tsx'
import { ForgotForm } from './forgot-form.tsx'

export const metadata: Metadata = { title: 'Set a new password' }

export default function ForgotPasswordPage() {
  return (
    <Door title="Set a new password">
      <ForgotForm />
      <p>
        <a href="/sign-in">Back to sign-in</a>
      </p>
    </Door>
  )
}
