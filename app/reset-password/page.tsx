import type { Metadata } from 'next'
import { Door } from '@/app/ui/door/door.tsx'
import { ResetForm } from './reset-form.tsx'

export const metadata: Metadata = { title: 'Choose a password' }

export default function ResetPasswordPage() {
  return (
    <Door title="Choose a password">
      <ResetForm />
    </Door>
  )
}
