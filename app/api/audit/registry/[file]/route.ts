import { exportRegistry } from '@/lib/audit/registry/index.ts'
import { withOurHeaders } from '@/lib/http/answer.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'

/** A file for a registry or a paper, without identifiers, or the dictionary of its columns. */
export const GET = staffRoute<{ file: string }>('audit', async ({ staff, params }) => {
  const { file, text } = await exportRegistry(staff, params.file)
  return withOurHeaders(
    new Response(text, {
      headers: {
        'Content-Type': 'text/csv; charset=utf-8',
        'Content-Disposition': `attachment; filename="registry-${file}"`,
      },
    }),
  )
})
