import { withOurHeaders } from '@/lib/http/answer.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { handoverPdf } from '@/lib/worklist/print/handover-pdf.ts'
import { readOneHandover } from '@/lib/worklist/read-handover.ts'

/** One handover on paper: A4, or Letter by `?paper=letter`. */
export const GET = staffRoute<{ id: string }>('hand-over', async ({ staff, params, request }) => {
  const sheet = await readOneHandover(staff, params.id, 'print')
  const isLetter = new URL(request.url).searchParams.get('paper') === 'letter'
  const pdf = await handoverPdf(sheet, isLetter ? 'LETTER' : 'A4')
  return withOurHeaders(
    new Response(Buffer.from(pdf), {
      headers: {
        'Content-Type': 'application/pdf',
        // The name says no patient's: it stays in a folder of downloads.
        'Content-Disposition': `attachment; filename="handover-${sheet.asOf.slice(0, 10)}.pdf"`,
      },
    }),
  )
})
