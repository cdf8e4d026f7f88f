import type { Metadata } from 'next'
import { verdictsOnMyCalls } from '@/lib/audit/week/index.ts'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { MyVerdicts } from '../../ui/audit/week/my-verdicts.tsx'
import { Frame } from '../../ui/frame/frame.tsx'
import { Header } from '../../ui/frame/header.tsx'

export const metadata: Metadata = { title: 'Verdicts on my calls' }

export default async function VerdictsPage() {
  const staff = await staffPage('read-numbers')
  const clinic = await clinicOf(staff)
  const verdicts = await verdictsOnMyCalls(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="numbers" />}>
      <MyVerdicts verdicts={verdicts} zone={clinic.timeZone} />
    </Frame>
  )
}
