import type { Metadata } from 'next'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { EnrolScreen } from '../../../ui/enrol/enrol-screen.tsx'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'

export const metadata: Metadata = { title: 'Enrol a patient' }

export default async function EnrolPage() {
  const staff = await staffPage('enrol')
  const clinic = await clinicOf(staff)
  const asOf = now().toISOString()
  // The clinic's own zone first, since some engines leave aliases out of their list.
  const zones = [...new Set([clinic.timeZone, ...Intl.supportedValuesOf('timeZone')])]
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={asOf} room="enrol" />}>
      <EnrolScreen asOf={asOf} zone={clinic.timeZone} zones={zones} />
    </Frame>
  )
}
