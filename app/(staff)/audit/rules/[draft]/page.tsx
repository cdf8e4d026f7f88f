import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { readDraft } from '@/lib/audit/rules/index.ts'
import { draftQuery } from '@/lib/client/rules-queries.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../../ui/audit/audit-nav.tsx'
import { DraftScreen } from '../../../../ui/audit/rules/draft-screen.tsx'
import { Frame } from '../../../../ui/frame/frame.tsx'
import { Header } from '../../../../ui/frame/header.tsx'
import { Hydrated } from '../../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'A draft of a rule set' }

export default async function DraftPage({ params }: { params: Promise<{ draft: string }> }) {
  const staff = await staffPage('audit')
  const { draft: id } = await params
  const draft = await readDraft(staff, id).catch((error: unknown) => {
    if (error instanceof Refusal && error.kind === 'not-found') return notFound()
    throw error
  })
  const { clinic, asOf } = draft
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={asOf} room="audit" />}>
      <AuditNav part="rules" />
      <Hydrated queryKey={draftQuery(id).queryKey} data={draft}>
        <DraftScreen id={id} me={staff.id} />
      </Hydrated>
    </Frame>
  )
}
