import { staffRoute } from '@/lib/http/staff-route.ts'
import { findPatients } from '@/lib/worklist/find-patients.ts'

/** Looks for a patient by name or record number. The words are in the body: an address is kept in logs. */
export const POST = staffRoute('read-worklist', async ({ staff, body }) => findPatients(staff, await body()))
