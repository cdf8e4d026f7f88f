import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { patientQuery } from '@/lib/client/patient-query.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readPatientPage } from '@/lib/worklist/index.ts'
import { Frame } from '../../../ui/frame/frame.tsx'
import { Header } from '../../../ui/frame/header.tsx'
import { Hydrated } from '../../../ui/frame/hydrated.tsx'
import { PatientScreen } from '../../../ui/patient/patient-screen.tsx'

/** No name in the title: a title stays in the history of a shared computer. */
export const metadata: Metadata = { title: 'Patient' }

export default async function OnePatientPage({ params }: { params: Promise<{ id: string }> }) {
  const staff = await staffPage('read-patient')
  const { id } = await params
  const page = await readPatientPage(staff, id, undefined, 'open', 'recent').catch((error: unknown) => {
    if (error instanceof Refusal && error.kind === 'not-found') return notFound()
    throw error
  })
  return (
    <Frame header={<Header staff={staff} clinic={page.clinic} asOf={page.asOf} room="patient" />}>
      <Hydrated queryKey={patientQuery(id).queryKey} data={page}>
        <PatientScreen id={id} staff={staff} />
      </Hydrated>
    </Frame>
  )
}
