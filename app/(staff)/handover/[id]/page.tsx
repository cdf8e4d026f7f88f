import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { now } from '@/lib/clock.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { readOneHandover } from '@/lib/worklist/read-handover.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { SignedScreen } from '../../../ui/handover/signed-screen.tsx'

export const metadata: Metadata = { title: 'Handover' }

/** An earlier handover, as it was signed; one that is still open stands at /handover. */
export default async function SignedHandoverPage({ params }: { params: Promise<{ id: string }> }) {
  const staff = await staffPage('hand-over')
  const { id } = await params
  const clinic = await clinicOf(staff)
  const sheet = await readOneHandover(staff, id, 'view').catch((error: unknown) => {
    if (error instanceof Refusal && error.kind === 'not-found') return notFound()
    throw error
  })
  if (!sheet.handover?.givenAt || !sheet.handover.takenAt) redirect('/handover')
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="handover" />}>
      <SignedScreen sheet={sheet} />
    </Frame>
  )
}
