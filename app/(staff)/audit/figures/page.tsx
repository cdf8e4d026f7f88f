import type { Metadata } from 'next'
import { readFigures } from '@/lib/audit/figures/index.ts'
import { figuresQuery } from '@/lib/client/figures-queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../ui/audit/audit-nav.tsx'
import { FiguresScreen } from '../../../ui/audit/figures/figures-screen.tsx'
import { weeksFrom } from '../../../ui/audit/figures/spans.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'Figures' }

export default async function FiguresPage({
  searchParams,
}: {
  searchParams: Promise<{ weeks?: string | string[] }>
}) {
  const staff = await staffPage('audit')
  const weeks = weeksFrom((await searchParams).weeks)
  const figures = await readFigures(staff, { from: null, until: null, weeks: String(weeks) })
  return (
    <Frame header={<Header staff={staff} clinic={figures.clinic} asOf={figures.asOf} room="audit" />}>
      <AuditNav part="figures" />
      <Hydrated queryKey={figuresQuery(weeks).queryKey} data={figures}>
        <FiguresScreen key={weeks} weeks={weeks} />
      </Hydrated>
    </Frame>
  )
}
