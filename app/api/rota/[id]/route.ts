import { staffRoute } from '@/lib/http/staff-route.ts'
import { removeFromRota } from '@/lib/worklist/index.ts'

/** Takes a shift out of the rota. Once or often, the outcome is the same. */
export const DELETE = staffRoute<{ id: string }>('edit-rota', ({ staff, params }) =>
  removeFromRota(staff, params.id),
)
