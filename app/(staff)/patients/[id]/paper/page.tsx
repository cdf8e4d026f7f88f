import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { patientQuery } from '@/lib/client/patient-query.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readPatientPage } from '@/lib/worklist/index.ts'
import { Frame } from '../../../../ui/frame/frame.tsx'
import { Header } from '../../../../ui/frame/header.tsx'
import { Hydrated } from '../../../../ui/frame/hydrated.tsx'
import { PaperScreen } from '../../../../ui/paper/paper-screen.tsx'

/** No name in the title: a title stays in the history of a shared computer. */
export const metadata: Metadata = { title: 'Paper log' }

/** The rows of a patient's paper log, typed or pasted. */
export default async function PaperPage({ params }: { params: Promise<{ id: string }> }) {
  const staff = await staffPage('enter-report')
  const { id } = await params
  const page = await readPatientPage(staff, id, undefined, 'beside', 'recent').catch((error: unknown) => {
    if (error instanceof Refusal && error.kind === 'not-found') return notFound()
    throw error
  })
  return (
    <Frame header={<Header staff={staff} clinic={page.clinic} asOf={page.asOf} room="patient" />}>
      <Hydrated queryKey={patientQuery(id).queryKey} data={page}>
        <PaperScreen id={id} staffId={staff.id} />
      </Hydrated>
    </Frame>
  )
}
