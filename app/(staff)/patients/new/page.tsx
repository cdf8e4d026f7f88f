import type { Metadata } from 'next'
import { now } from '@/lib/clock.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { offeredOrders, waitingDischarge } from '@/lib/intake/index.ts'
import { clinicOf } from '@/lib/worklist/clinic-of.ts'
import { EnrolScreen } from '../../../ui/enrol/enrol-screen.tsx'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'

export const metadata: Metadata = { title: 'Enrol a patient' }

type Asked = { searchParams: Promise<{ discharge?: string | string[]; enrolled?: string | string[] }> }

export default async function EnrolPage({ searchParams }: Asked) {
  const staff = await staffPage('enrol')
  const { discharge, enrolled } = await searchParams
  const clinic = await clinicOf(staff)
  const asOf = now().toISOString()
  // The clinic's own zone first, since some engines leave aliases out of their list.
  const zones = [...new Set([clinic.timeZone, ...Intl.supportedValuesOf('timeZone')])]
  const start = {
    zone: clinic.timeZone,
    offered: await offeredOrders(staff),
    discharge: typeof discharge === 'string' ? await waitingDischarge(staff, discharge) : null,
  }
  return (
    <Frame header={<Header staff={staff} clinic={clinic} asOf={asOf} room="enrol" />}>
      <EnrolScreen
        asOf={asOf}
        staffId={staff.id}
        start={start}
        zones={zones}
        enrolled={typeof enrolled === 'string' ? enrolled : null}
      />
    </Frame>
  )
}
