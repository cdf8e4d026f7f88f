import type { Metadata } from 'next'
import { readOutcomes } from '@/lib/audit/outcomes/index.ts'
import { outcomesQuery } from '@/lib/client/outcomes-queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../ui/audit/audit-nav.tsx'
import { OutcomesScreen } from '../../../ui/audit/outcomes/outcomes-screen.tsx'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'What became of them' }

/** With `?patient=` it opens the form for an event of that patient. */
export default async function OutcomesPage({
  searchParams,
}: {
  searchParams: Promise<{ patient?: string | string[] }>
}) {
  const staff = await staffPage('record-outside-event')
  const { patient } = await searchParams
  const page = await readOutcomes(staff)
  const opened = typeof patient === 'string' && patient ? { patientId: patient, about: null } : null
  return (
    <Frame header={<Header staff={staff} clinic={page.clinic} asOf={page.asOf} room="audit" />}>
      <AuditNav part="outcomes" role={staff.role} />
      <Hydrated queryKey={outcomesQuery.queryKey} data={page}>
        <OutcomesScreen opened={opened} />
      </Hydrated>
    </Frame>
  )
}
