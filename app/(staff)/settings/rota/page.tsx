import type { Metadata } from 'next'
import { rotaQuery } from '@/lib/client/on-call-queries.ts'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { readRota } from '@/lib/worklist/index.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'
import { RotaScreen } from '../../../ui/settings/rota-screen.tsx'
import { SettingsNav } from '../../../ui/settings/settings-nav.tsx'

export const metadata: Metadata = { title: 'On-call rota' }

export default async function RotaPage() {
  const staff = await staffPage('edit-rota')
  const clinic = await clinicOf(staff)
  const rota = await readRota(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="settings" />}>
      <SettingsNav role={staff.role} here="/settings/rota" />
      <Hydrated queryKey={rotaQuery.queryKey} data={rota}>
        <RotaScreen zone={clinic.timeZone} />
      </Hydrated>
    </Frame>
  )
}
