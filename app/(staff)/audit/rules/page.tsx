import type { Metadata } from 'next'
import { readRules } from '@/lib/audit/rules/index.ts'
import { rulesQuery } from '@/lib/client/rules-queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../ui/audit/audit-nav.tsx'
import { RulesScreen } from '../../../ui/audit/rules/rules-screen.tsx'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'Rule sets' }

export default async function RulesPage() {
  const staff = await staffPage('audit')
  const rules = await readRules(staff)
  return (
    <Frame header={<Header staff={staff} clinic={rules.clinic} asOf={rules.asOf} room="audit" />}>
      <AuditNav part="rules" />
      <Hydrated queryKey={rulesQuery.queryKey} data={rules}>
        <RulesScreen />
      </Hydrated>
    </Frame>
  )
}
