import type { Metadata } from 'next'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readOrderTemplates } from '@/lib/intake/index.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { TemplatesScreen } from '../../../ui/orders/templates-screen.tsx'
import { SettingsNav } from '../../../ui/settings/settings-nav.tsx'

export const metadata: Metadata = { title: 'Usual orders' }

export default async function OrdersSettingsPage() {
  const staff = await staffPage('edit-clinic')
  const clinic = await clinicOf(staff)
  const asOf = now().toISOString()
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={asOf} room="settings" />}>
      <SettingsNav role={staff.role} here="/settings/orders" />
      <TemplatesScreen templates={await readOrderTemplates(staff)} asOf={asOf} zone={clinic.timeZone} />
    </Frame>
  )
}
