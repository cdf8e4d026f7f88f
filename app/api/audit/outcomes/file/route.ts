import { IMPORT_MAX_BYTES } from '@/lib/domain/import-file.ts'
import { Refusal } from '@/lib/domain/problem.ts'
import { readBytes } from '@/lib/http/read-bytes.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { importOutsideEvents } from '@/lib/intake/import-outside-events.ts'

const tooLarge = () =>
  new Refusal(
    'too-large',
    `The file has more than ${IMPORT_MAX_BYTES / 1024 / 1024} MiB; accepted: at most that.`,
  )

/**
 * A file of outside events as the body, CSV in UTF-8; with `?dry=1` it is only looked at. A file that was taken in is
 * known by its content: no key is needed.
 */
export const POST = staffRoute('record-outside-event', async ({ staff, request }) => {
  if (!/^text\/csv\s*(;|$)/i.test(request.headers.get('content-type') ?? ''))
    throw new Refusal('invalid-input', 'The body is not said to be a file; accepted: text/csv.')
  const { searchParams } = new URL(request.url)
  return importOutsideEvents(staff, {
    name: (searchParams.get('name') ?? 'events.csv').slice(0, 200),
    dryRun: searchParams.get('dry') === '1',
    bytes: await readBytes(request, IMPORT_MAX_BYTES, tooLarge),
  })
})
