import { Refusal } from '@/lib/domain/problem.ts'
import { withOurHeaders } from '@/lib/http/answer.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { exportChart } from '@/lib/worklist/export/export-chart.ts'
import { timelineSvg } from './timeline-svg.ts'

const sizes: Readonly<Record<string, 'A4' | 'LETTER'>> = { a4: 'A4', letter: 'LETTER' }

/** Two pages for the chart at the hospital: A4, or Letter by `?paper=letter`. */
export const GET = staffRoute<{ id: string }>('read-patient', async ({ staff, params, request }) => {
  const paper = new URL(request.url).searchParams.get('paper') ?? 'a4'
  const size = sizes[paper]
  if (!size)
    throw new Refusal('invalid-input', 'There is no such paper.', [
      { field: 'paper', value: paper, message: 'accepted: a4, letter' },
    ])
  const { name, body } = await exportChart(staff, params.id, { size, draw: timelineSvg })
  return withOurHeaders(
    new Response(Buffer.from(body), {
      headers: {
        'Content-Type': 'application/pdf',
        'Content-Disposition': `attachment; filename="${name}"`,
      },
    }),
  )
})
