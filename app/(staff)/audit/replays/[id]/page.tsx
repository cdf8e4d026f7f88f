import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { readReplay, readReplayPatient, replayHead } from '@/lib/audit/replay/index.ts'
import { replayQuery } from '@/lib/client/replay-query.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { may } from '@/lib/domain/staff.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { AuditNav } from '../../../../ui/audit/audit-nav.tsx'
import { BothCourses } from '../../../../ui/audit/replay/both-courses.tsx'
import { ReplayScreen } from '../../../../ui/audit/replay/replay-screen.tsx'
import { Frame } from '../../../../ui/frame/frame.tsx'
import { Header } from '../../../../ui/frame/header.tsx'
import { Hydrated } from '../../../../ui/frame/hydrated.tsx'

export const metadata: Metadata = { title: 'Replay of a rule set' }

type Props = { params: Promise<{ id: string }>; searchParams: Promise<{ patient?: string | string[] }> }

const orNotFound = (error: unknown) => {
  if (error instanceof Refusal && error.kind === 'not-found') return notFound()
  throw error
}

/** A replay: its progress, then what it found; or one of its patients under both rule sets. */
export default async function ReplayPage({ params, searchParams }: Props) {
  const staff = await staffPage('audit')
  const { id } = await params
  const { patient } = await searchParams
  const { clinic, asOf } = await replayHead(staff)
  const zone = clinic.timeZone
  const header = <Header staff={staff} clinic={clinic} asOf={asOf} room="audit" />
  if (typeof patient === 'string') {
    const courses = await readReplayPatient(staff, id, patient).catch(orNotFound)
    return (
      <Frame header={header}>
        <AuditNav part="rules" />
        <BothCourses id={id} courses={courses} zone={zone} />
      </Frame>
    )
  }
  const replay = await readReplay(staff, id).catch(orNotFound)
  return (
    <Frame header={header}>
      <AuditNav part="rules" />
      <Hydrated queryKey={replayQuery(id).queryKey} data={replay}>
        <ReplayScreen id={id} zone={zone} mayCancel={may(staff.role, 'change-rules')} />
      </Hydrated>
    </Frame>
  )
}
