import { withOurHeaders } from '@/lib/http/answer.ts'
import type { ExportFile } from '@/lib/worklist/export/export-csv.ts'

/** A table as a file to keep. */
export const csvAnswer = ({ name, body }: ExportFile): Response =>
  withOurHeaders(
    new Response(body, {
      headers: {
        'Content-Type': 'text/csv; charset=utf-8',
        'Content-Disposition': `attachment; filename="${name}"`,
      },
    }),
  )
