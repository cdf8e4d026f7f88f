import type { Metadata } from 'next'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { Frame } from '../../ui/frame/frame.tsx'
import { Header } from '../../ui/frame/header.tsx'
import { ImportScreen } from '../../ui/import/import-screen.tsx'

export const metadata: Metadata = { title: 'Import reports' }

/** A file of reports: looked at first, then taken in whole. */
export default async function ImportPage() {
  const staff = await staffPage('import-reports')
  const clinic = await clinicOf(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="import" />}>
      <ImportScreen zone={clinic.timeZone} />
    </Frame>
  )
}
