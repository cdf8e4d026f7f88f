import { IMPORT_MAX_BYTES, type ImportNews } from '@/lib/domain/import-file.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { problemFor } from '@/lib/http/answer.ts'
import { newsStream } from '@/lib/http/news-stream.ts'
import { readBytes } from '@/lib/http/read-bytes.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { importReports } from '@/lib/intake/import-reports.ts'

const tooLarge = () =>
  new Refusal(
    'too-large',
    `The file has more than ${IMPORT_MAX_BYTES / 1024 / 1024} MiB; accepted: at most that.`,
  )

/**
 * A file of reports as the body, CSV in UTF-8; with `?dry=1` it is only looked at. The answer is a line of JSON for
 * each step, and at last the outcome. A file that was taken in is known by its content: no key is needed.
 */
export const POST = staffRoute('import-reports', async ({ staff, request }) => {
  if (!/^text\/csv\s*(;|$)/i.test(request.headers.get('content-type') ?? ''))
    throw new Refusal('invalid-input', 'The body is not said to be a file; accepted: text/csv.')
  const { searchParams, pathname } = new URL(request.url)
  const bytes = await readBytes(request, IMPORT_MAX_BYTES, tooLarge)
  const file = {
    name: (searchParams.get('name') ?? 'reports.csv').slice(0, 200),
    dryRun: searchParams.get('dry') === '1',
    bytes,
  }
  return newsStream(async (tell: (news: ImportNews) => void) => {
    try {
      const outcome = await importReports(staff, file, (progress) => tell({ news: 'progress', ...progress }))
      tell({ news: 'outcome', outcome })
    } catch (error) {
      tell({ news: 'problem', problem: problemFor(error, { method: 'POST', path: pathname }) })
    }
  })
})
