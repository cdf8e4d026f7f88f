import type { Metadata } from 'next'
import { clinicSettingsQuery } from '@/lib/client/settings-queries.ts'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readClinicSettings } from '@/lib/intake/index.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { Frame } from '../../ui/frame/frame.tsx'
import { Header } from '../../ui/frame/header.tsx'
import { Hydrated } from '../../ui/frame/hydrated.tsx'
import { ClinicScreen } from '../../ui/settings/clinic-screen.tsx'
import { SettingsNav } from '../../ui/settings/settings-nav.tsx'

export const metadata: Metadata = { title: 'Settings' }

export default async function SettingsPage() {
  const staff = await staffPage('edit-clinic')
  const clinic = await clinicOf(staff)
  const settings = await readClinicSettings(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="settings" />}>
      <SettingsNav role={staff.role} here="/settings" />
      <Hydrated queryKey={clinicSettingsQuery.queryKey} data={settings}>
        <ClinicScreen zone={clinic.timeZone} />
      </Hydrated>
    </Frame>
  )
}
