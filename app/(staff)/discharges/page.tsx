import type { Metadata } from 'next'
import { dischargesQuery } from '@/lib/client/discharges-query.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readDischarges } from '@/lib/intake/index.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { DischargesScreen } from '../../ui/discharges/discharges-screen.tsx'
import { Frame } from '../../ui/frame/frame.tsx'
import { Header } from '../../ui/frame/header.tsx'
import { Hydrated } from '../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'Discharges' }

export default async function DischargesPage() {
  const staff = await staffPage('keep-discharges')
  const clinic = await clinicOf(staff)
  const list = await readDischarges(staff)
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={list.asOf} room="discharges" />}>
      <Hydrated queryKey={dischargesQuery.queryKey} data={list}>
        <DischargesScreen zone={clinic.timeZone} />
      </Hydrated>
    </Frame>
  )
}
