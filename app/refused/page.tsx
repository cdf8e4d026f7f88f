import type { Metadata } from 'next'
import { Door } from '@/app/ui/door/door.tsx'
import { SignOut } from '@/app/ui/frame/sign-out.tsx'

export const metadata: Metadata = { title: 'Not for your role' }

export default function RefusedPage() {
  return (
    <Door title="Not for your role">
      <p>
        What you asked for is not for the role of your account, and nothing was shown. Accounts of
        administrators see no patient: they work by command (npm run admin).
      </p>
      <p>
        If this is wrong, an administrator of your clinic can change your role. Or sign in as somebody else:{' '}
        <SignOut />
      </p>
    </Door>
  )
}
