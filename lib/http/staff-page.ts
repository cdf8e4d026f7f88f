import { headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { noteDenied } from '../access/note-denied.ts'
import { staffFromHeaders } from '../access/staff-from-headers.ts'
import { type Action, may, type StaffMember } from '../domain/staff.ts'
import { PATH_HEADER } from './path-header.ts'

/** Who looks at a page, if they may; else it leads to the sign-in page, and back, or to the page that says no. */
export async function staffPage(action: Action): Promise<StaffMember> {
  const asked = await headers()
  const path = asked.get(PATH_HEADER) ?? '/'
  const staff = await staffFromHeaders(new Headers(asked))
  if (!staff) redirect(path === '/' ? '/sign-in' : `/sign-in?next=${encodeURIComponent(path)}`)
  if (!may(staff.role, action)) {
    await noteDenied(staff, action, path)
    redirect('/refused')
  }
  return staff
}
