import type { Metadata } from 'next'
import { noAnswerQuery } from '@/lib/client/no-answer-query.ts'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { readNoAnswer } from '@/lib/worklist/index.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'
import { NoAnswerScreen } from '../../../ui/settings/no-answer-screen.tsx'
import { SettingsNav } from '../../../ui/settings/settings-nav.tsx'

export const metadata: Metadata = { title: 'No answer' }

export default async function NoAnswerPage() {
  const staff = await staffPage('edit-clinic')
  const clinic = await clinicOf(staff)
  const page = await readNoAnswer(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={now().toISOString()} room="settings" />}>
      <SettingsNav role={staff.role} here="/settings/no-answer" />
      <Hydrated queryKey={noAnswerQuery.queryKey} data={page}>
        <NoAnswerScreen zone={clinic.timeZone} />
      </Hydrated>
    </Frame>
  )
}
