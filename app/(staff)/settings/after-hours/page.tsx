import type { Metadata } from 'next'
import { afterHoursQuery } from '@/lib/client/on-call-queries.ts'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { readAfterHours } from '@/lib/worklist/index.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'
import { AfterHoursScreen } from '../../../ui/settings/after-hours-screen.tsx'
import { SettingsNav } from '../../../ui/settings/settings-nav.tsx'

export const metadata: Metadata = { title: 'After hours' }

export default async function AfterHoursPage() {
  const staff = await staffPage('edit-rota')
  const clinic = await clinicOf(staff)
  const page = await readAfterHours(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="settings" />}>
      <SettingsNav role={staff.role} here="/settings/after-hours" />
      <Hydrated queryKey={afterHoursQuery.queryKey} data={page}>
        <AfterHoursScreen zone={clinic.timeZone} />
      </Hydrated>
    </Frame>
  )
}
