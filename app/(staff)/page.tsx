import type { Metadata } from 'next'
import { worklistQuery } from '@/lib/client/worklist-query.ts'
import { staffPage } from '@/lib/http/staff-page.ts'
import { readPreference, readWorklist } from '@/lib/worklist/index.ts'
import { Frame } from '../ui/frame/frame.tsx'
import { Header } from '../ui/frame/header.tsx'
import { Hydrated } from '../ui/frame/hydrated.tsx'
import { WorklistScreen } from '../ui/worklist/worklist-screen.tsx'

export const metadata: Metadata = { title: 'Worklist' }

/** So many rows come along with the page; the others of a longer list are asked for by it. */
const BROUGHT = 300

export default async function WorklistPage() {
  const staff = await staffPage('read-worklist')
  const habit = await readPreference(staff, 'worklist')
  const worklist = await readWorklist(staff)
  const { asOf, rows } = worklist
  const brought = { ...worklist, rows: rows.slice(0, BROUGHT) }
  return (
    <Frame header={<Header staff={staff} clinic={worklist.clinic} asOf={worklist.asOf} room="worklist" />}>
      <Hydrated queryKey={worklistQuery.queryKey} data={brought}>
        <WorklistScreen staff={staff} habit={habit} begins={{ asOf, total: rows.length }} />
      </Hydrated>
    </Frame>
  )
}
