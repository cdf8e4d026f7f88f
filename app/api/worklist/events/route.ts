import { staffFromHeaders } from '@/lib/access/staff-from-headers.ts'
import { may } from '@/lib/domain/staff.ts'
import { eventStream } from '@/lib/http/event-stream.ts'
import { staffRoute } from '@/lib/http/staff-route.ts'
import { followWorklist } from '@/lib/worklist/follow.ts'

/** Tells an open worklist which patient has changed; what has changed is read at /api/worklist. */
export const GET = staffRoute('read-worklist', async ({ staff, request }) =>
  eventStream({
    follow: (send) => followWorklist(staff, ({ patientId }) => send('changed', { patientId })),
    stillMay: async () => {
      const now = await staffFromHeaders(request.headers, { extend: false })
      return now !== null && may(now.role, 'read-worklist')
    },
    signal: request.signal,
  }),
)
