import type { Metadata } from 'next'
import { handoverQuery } from '@/lib/client/handover-queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { readHandover } from '@/lib/worklist/read-handover.ts'
import { Frame } from '../../ui/frame/frame.tsx'
import { Header } from '../../ui/frame/header.tsx'
import { Hydrated } from '../../ui/frame/hydrated.tsx'
import { HandoverScreen } from '../../ui/handover/handover-screen.tsx'

export const metadata: Metadata = { title: 'Handover' }

export default async function HandoverPage() {
  const staff = await staffPage('hand-over')
  const clinic = await clinicOf(staff)
  const page = await readHandover(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={page.sheet.asOf} room="handover" />}>
      <Hydrated queryKey={handoverQuery.queryKey} data={page}>
        <HandoverScreen staff={staff} />
      </Hydrated>
    </Frame>
  )
}
