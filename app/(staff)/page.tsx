import type { Metadata } from 'next'
import { worklistQuery } from '@/lib/client/queries.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readWorklist } from '@/lib/worklist/index.ts'
import { Frame } from '../ui/frame/frame.tsx'
import { Header } from '../ui/frame/header.tsx'
import { Hydrated } from '../ui/frame/hydrated.tsx'
import { WorklistScreen } from '../ui/worklist/worklist-screen.tsx'

export const metadata: Metadata = { title: 'Worklist' }

export default async function WorklistPage() {
  const staff = await staffPage('read-worklist')
  const worklist = await readWorklist(staff)
  return (
    <Frame header={<Header staff={staff} clinic={worklist.clinic} asOf={worklist.asOf} room="worklist" />}>
      <Hydrated queryKey={worklistQuery.queryKey} data={worklist}>
        <WorklistScreen staff={staff} />
      </Hydrated>
    </Frame>
  )
}
