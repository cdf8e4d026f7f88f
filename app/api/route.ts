import { openRoute } from '@/lib/http/open-route.ts'
import { openApi } from '@/lib/http/openapi.ts'

/** The door for other systems, described. */
export const GET = openRoute(async () => openApi())
