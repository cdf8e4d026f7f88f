import type { Metadata } from 'next'
import { callTextsQuery } from '@/lib/client/settings-queries.ts'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readCallTexts } from '@/lib/intake/index.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'
import { CallTextsScreen } from '../../../ui/settings/call-texts-screen.tsx'
import { SettingsNav } from '../../../ui/settings/settings-nav.tsx'

export const metadata: Metadata = { title: 'Questions of the call' }

export default async function QuestionsPage() {
  const staff = await staffPage('edit-clinic')
  const clinic = await clinicOf(staff)
  const texts = await readCallTexts(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="settings" />}>
      <SettingsNav role={staff.role} here="/settings/questions" />
      <Hydrated queryKey={callTextsQuery.queryKey} data={texts}>
        <CallTextsScreen zone={clinic.timeZone} />
      </Hydrated>
    </Frame>
  )
}
