import { readBehind } from '@/lib/audit/figures/index.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** Who stands behind a figure or one of its parts; entered in the access record. */
export const GET = staffRoute('audit', ({ staff, request }) => {
  const asked = new URL(request.url).searchParams
  const said = (name: string) => asked.get(name)
  return readBehind(staff, {
    figure: said('figure'),
    part: said('part'),
    from: said('from'),
    until: said('until'),
    weeks: said('weeks'),
  })
})
