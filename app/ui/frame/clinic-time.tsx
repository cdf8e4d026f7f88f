'use client'

import { useServerNow } from '@/lib/client/server-time.ts'
import type { Instant } from '@/lib/domain/instant.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'

/** The clinic's own day and time, going on from the server's. */
export function ClinicTime({ asOf, zone }: { asOf: Instant; zone: string }) {
  return <time>{dayAndTime(useServerNow(asOf), zone)}</time>
}
