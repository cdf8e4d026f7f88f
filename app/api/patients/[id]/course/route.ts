import { Refusal } from '@/lib/domain/problem.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { readKindCourse } from '@/lib/worklist/kind-course.ts'

/** The usual course of a drain's kind in this clinic; nothing (204) where fewer than 10 patients count. */
export const GET = staffRoute<{ id: string }>('read-patient', ({ staff, params, request }) => {
  const drain = new URL(request.url).searchParams.get('drain')
  if (!drain)
    throw new Refusal('invalid-input', 'Of which drain?', [
      { field: 'drain', message: 'is missing; accepted: the id of a drain of this patient' },
    ])
  return readKindCourse(staff, params.id, drain)
})
