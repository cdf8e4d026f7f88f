import type { Metadata } from 'next'
import { adviceTextsQuery } from '@/lib/client/settings-queries.ts'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readAdviceTexts } from '@/lib/intake/index.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'
import { SettingsNav } from '../../../ui/settings/settings-nav.tsx'
import { TextsScreen } from '../../../ui/settings/texts-screen.tsx'

export const metadata: Metadata = { title: 'Texts for patients' }

export default async function TextsPage() {
  const staff = await staffPage('edit-clinic')
  const clinic = await clinicOf(staff)
  const texts = await readAdviceTexts(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="settings" />}>
      <SettingsNav role={staff.role} here="/settings/texts" />
      <Hydrated queryKey={adviceTextsQuery.queryKey} data={texts}>
        <TextsScreen staff={staff} zone={clinic.timeZone} />
      </Hydrated>
    </Frame>
  )
}
