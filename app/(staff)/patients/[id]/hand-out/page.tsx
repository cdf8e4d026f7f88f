import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readHandOut } from '@/lib/intake/hand-out.ts'
import { Header } from '../../../../ui/frame/header.tsx'
import { HandOutScreen } from '../../../../ui/hand-out/hand-out-screen.tsx'

/** No name in the title: a title stays in the history of a shared computer, and on the edge of a print. */
export const metadata: Metadata = { title: 'Hand-out' }

/** The page that a patient takes home, as it will be printed. */
export default async function HandOutPage({ params }: { params: Promise<{ id: string }> }) {
  const staff = await staffPage('read-patient')
  const { id } = await params
  const handOut = await readHandOut(staff, id).catch((error: unknown) => {
    if (error instanceof Refusal && error.kind === 'not-found') return notFound()
    throw error
  })
  return (
    <HandOutScreen
      handOut={handOut}
      header={<Header staff={staff} clinic={handOut.clinic} asOf={handOut.asOf} room="patient" />}
    />
  )
}
