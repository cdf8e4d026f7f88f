import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { readWeek } from '@/lib/audit/week/index.ts'
import { weekQuery } from '@/lib/client/audit-week-queries.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../../ui/audit/audit-nav.tsx'
import { ReadingScreen } from '../../../../ui/audit/week/reading-screen.tsx'
import { Frame } from '../../../../ui/frame/frame.tsx'
import { Header } from '../../../../ui/frame/header.tsx'
import { Hydrated } from '../../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'The week' }

export default async function WeekPage({ params }: { params: Promise<{ week: string }> }) {
  const staff = await staffPage('audit')
  const { week } = await params
  const page = await readWeek(staff, week).catch((error: unknown) => {
    // No Monday, or a week that is not over: there is no such page.
    if (error instanceof Refusal) return notFound()
    throw error
  })
  return (
    <Frame header={<Header staff={staff} clinic={page.clinic} asOf={page.asOf} room="audit" />}>
      <AuditNav part="week" role={staff.role} />
      <Hydrated queryKey={weekQuery(page.week).queryKey} data={page}>
        <ReadingScreen week={page.week} />
      </Hydrated>
    </Frame>
  )
}
