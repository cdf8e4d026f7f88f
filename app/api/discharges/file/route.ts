import { staffRoute } from '@/lib/http/staff-route.ts'
import { takeDischargeFile } from '@/lib/intake/index.ts'

/** A file of discharges, looked at or taken in whole. */
export const POST = staffRoute('keep-discharges', async ({ staff, body, key }) => {
  key() // asked for as at every door that stores; the same file again adds nothing by itself
  return takeDischargeFile(staff, await body())
})
