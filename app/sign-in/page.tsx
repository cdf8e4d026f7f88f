import type { Metadata } from 'next'
import { Door } from '@/app/ui/door/door.tsx'
import { localPath } from './local-path.ts'
import { SignInForm } from './sign-in-form.tsx'

export const metadata: Metadata = { title: 'Sign in' }

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<{ next?: string | string[] }>
}) {
  const { next } = await searchParams
  return (
    <Door title="Sign in">
      <SignInForm next={localPath(next)} />
      <noscript>
        <p>This page needs script: it sends your password without leaving it in the address.</p>
      </noscript>
    </Door>
  )
}
