import { headers } from 'next/headers'
import { sessionInCookie } from '@/lib/http/check-in-cookie.ts'
import { clinicOfSession } from '@/lib/intake/index.ts'
import { CheckInPage } from './check-in-page.tsx'

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

/** The installed page, and links of old: whose it is says the session alone. */
export default async function InstalledPage({ searchParams }: Props) {
  const session = sessionInCookie(await headers())
  const clinic = session ? await clinicOfSession(session) : null
  return <CheckInPage clinic={clinic} asked={(await searchParams).language} />
}
