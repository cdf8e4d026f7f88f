import { PageReach } from '@/lib/domain/patient-page.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { readPatientPage } from '@/lib/worklist/index.ts'

/** What an open page reads again by itself; opening it is the page's own. The whole record, or the last of it by `?reach=recent`. */
export const GET = staffRoute<{ id: string }>('read-patient', ({ staff, params, request }) => {
  const reach = PageReach.safeParse(new URL(request.url).searchParams.get('reach') ?? 'whole')
  if (!reach.success)
    throw new Refusal('invalid-input', 'How far back?', [
      { field: 'reach', message: 'accepted: recent, whole' },
    ])
  return readPatientPage(staff, params.id, undefined, 'live', reach.data)
})
