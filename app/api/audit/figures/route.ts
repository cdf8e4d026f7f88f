import { readFigures } from '@/lib/audit/figures/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** The figures of a period: whole weeks back (`weeks`), or local days `from` up to `until`. */
export const GET = staffRoute('audit', ({ staff, request }) => {
  const asked = new URL(request.url).searchParams
  return readFigures(staff, {
    from: asked.get('from'),
    until: asked.get('until'),
    weeks: asked.get('weeks'),
  })
})
