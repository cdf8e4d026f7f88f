import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { patientQuery } from '@/lib/client/patient-query.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { offeredOrders } from '@/lib/intake/index.ts'
import { readPatientPage } from '@/lib/worklist/index.ts'
import { Frame } from '../../../../ui/frame/frame.tsx'
import { Header } from '../../../../ui/frame/header.tsx'
import { Hydrated } from '../../../../ui/frame/hydrated.tsx'
import { AddDrainScreen } from '../../../../ui/patient/add-drain-screen.tsx'

/** No name in the title: a title stays in the history of a shared computer. */
export const metadata: Metadata = { title: 'Add a drain' }

/** A further drain of somebody who is in follow-up. */
export default async function AddDrainPage({ params }: { params: Promise<{ id: string }> }) {
  const staff = await staffPage('enrol')
  const { id } = await params
  const page = await readPatientPage(staff, id, undefined, 'beside', 'recent').catch((error: unknown) => {
    if (error instanceof Refusal && error.kind === 'not-found') return notFound()
    throw error
  })
  return (
    <Frame header={<Header staff={staff} clinic={page.clinic} asOf={page.asOf} room="patient" />}>
      <Hydrated queryKey={patientQuery(id).queryKey} data={page}>
        <AddDrainScreen id={id} offered={await offeredOrders(staff)} />
      </Hydrated>
    </Frame>
  )
}
