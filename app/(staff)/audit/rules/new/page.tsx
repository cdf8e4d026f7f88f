import type { Metadata } from 'next'
import { readBeginning } from '@/lib/audit/rules/index.ts'
import { beginningQuery } from '@/lib/client/rules-queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../../ui/audit/audit-nav.tsx'
import { NewDraftScreen } from '../../../../ui/audit/rules/new-draft-screen.tsx'
import { Frame } from '../../../../ui/frame/frame.tsx'
import { Header } from '../../../../ui/frame/header.tsx'
import { Hydrated } from '../../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'A draft of a rule set' }

export default async function NewDraftPage() {
  const staff = await staffPage('audit')
  const beginning = await readBeginning(staff)
  const { clinic, asOf } = beginning
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={asOf} room="audit" />}>
      <AuditNav part="rules" />
      <Hydrated queryKey={beginningQuery.queryKey} data={beginning}>
        <NewDraftScreen />
      </Hydrated>
    </Frame>
  )
}
