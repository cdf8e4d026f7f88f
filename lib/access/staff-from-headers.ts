import { type Role, StaffMember } from '../domain/staff.ts'
import { auth } from './auth.ts'

/**
 * The member of staff that a request's cookie belongs to, or null. Read from the database each time: a disabled
 * account and an ended session are refused at once. `extend` counts the request as its owner doing something;
 * a screen that refreshes itself does not.
 */
export async function staffFromHeaders(
  headers: Headers,
  { extend = true } = {},
): Promise<StaffMember | null> {
  const found = await auth().api.getSession({
    headers,
    query: { disableRefresh: !extend, disableCookieCache: true },
  })
  if (!found || found.user.disabledAt) return null
  const { id, clinicId, name, email, role } = found.user
  const staff = StaffMember.safeParse({ id, clinicId, name, email, role: role as Role })
  return staff.success ? staff.data : null
}
