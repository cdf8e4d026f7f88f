import type { Metadata } from 'next'
import { readWeeks } from '@/lib/audit/week/index.ts'
import { weeksQuery } from '@/lib/client/audit-week-queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../ui/audit/audit-nav.tsx'
import { WeeksScreen } from '../../ui/audit/week/weeks-screen.tsx'
import { Frame } from '../../ui/frame/frame.tsx'
import { Header } from '../../ui/frame/header.tsx'
import { Hydrated } from '../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'Audit' }

export default async function AuditPage() {
  const staff = await staffPage('audit')
  const weeks = await readWeeks(staff)
  return (
    <Frame header={<Header staff={staff} clinic={weeks.clinic} asOf={weeks.asOf} room="audit" />}>
      <AuditNav part="week" role={staff.role} />
      <Hydrated queryKey={weeksQuery.queryKey} data={weeks}>
        <WeeksScreen />
      </Hydrated>
    </Frame>
  )
}
