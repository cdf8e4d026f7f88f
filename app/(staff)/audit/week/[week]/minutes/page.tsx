import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { readMinutes } from '@/lib/audit/minutes/index.ts'
import { minutesQuery } from '@/lib/client/minutes-query.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../../../ui/audit/audit-nav.tsx'
import { MinutesScreen } from '../../../../../ui/audit/minutes/minutes-screen.tsx'
import { Frame } from '../../../../../ui/frame/frame.tsx'
import { Header } from '../../../../../ui/frame/header.tsx'
import { Hydrated } from '../../../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'Minutes of a week' }

export default async function MinutesPage({ params }: { params: Promise<{ week: string }> }) {
  const staff = await staffPage('audit')
  const { week } = await params
  const minutes = await readMinutes(staff, week).catch((error: unknown) => {
    if (error instanceof Refusal && error.kind === 'invalid-input') return notFound()
    throw error
  })
  const { clinic, asOf } = minutes
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={asOf} room="audit" />}>
      <AuditNav part="week" />
      <Hydrated queryKey={minutesQuery(minutes.week).queryKey} data={minutes}>
        <MinutesScreen week={minutes.week} />
      </Hydrated>
    </Frame>
  )
}
