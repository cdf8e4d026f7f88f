import { readSignedMinutes } from '@/lib/audit/minutes/index.ts'
import { withOurHeaders } from '@/lib/http/answer.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { minutesPdf } from '@/lib/worklist/print/minutes-pdf.ts'

/** Signed minutes on paper: the newest, or those of `?minutes=`; A4, or Letter by `?paper=letter`. */
export const GET = staffRoute<{ week: string }>('audit', async ({ staff, params, request }) => {
  const asked = new URL(request.url).searchParams
  const kept = await readSignedMinutes(staff, params.week, asked.get('minutes'))
  const pdf = await minutesPdf(kept, asked.get('paper') === 'letter' ? 'LETTER' : 'A4')
  return withOurHeaders(
    new Response(Buffer.from(pdf), {
      headers: {
        'Content-Type': 'application/pdf',
        'Content-Disposition': `attachment; filename="minutes-${kept.minutes.content.week}.pdf"`,
      },
    }),
  )
})
