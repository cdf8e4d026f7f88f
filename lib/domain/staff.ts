import { z } from 'zod'

/** Who works here. Administrators manage staff and clinics and read no patient. */
export const Role = z.enum(['nurse', 'charge-nurse', 'coordinator', 'physician', 'administrator'], {
  error: 'accepted: nurse, charge-nurse, coordinator, physician, administrator',
})
export type Role = z.infer<typeof Role>

/** What can be done. Every page and every route names exactly one of these. */
export const Action = z.enum([
  'read-worklist',
  'read-patient',
  'take-row',
  'override-take',
  'record-callback',
  'enter-report',
  'enrol',
  'change-orders',
  'record-staff-event',
  'edit-patient',
  'book-visit',
  'end-follow-up',
  'end-with-drain',
  'keep-discharges',
  'import-reports',
  'hand-over',
  'move-report',
  'admit',
  'read-numbers',
  'write-note',
  'record-outside-event',
  'edit-rota',
  'edit-clinic',
  'approve-text',
  'audit',
  'change-rules',
  'manage-staff',
])
export type Action = z.infer<typeof Action>

const calling: readonly Action[] = [
  'read-worklist',
  'read-patient',
  'take-row',
  'record-callback',
  'enter-report',
  'enrol',
  'record-staff-event',
  'edit-patient',
  'book-visit',
  'end-follow-up',
  'keep-discharges',
  'import-reports',
  'hand-over',
  'move-report',
  'admit',
  'read-numbers',
  'write-note',
  'record-outside-event',
]
const allowed: Readonly<Record<Role, readonly Action[]>> = {
  nurse: [...calling, 'change-orders'],
  'charge-nurse': [...calling, 'change-orders', 'override-take', 'edit-rota', 'edit-clinic'],
  coordinator: calling,
  physician: [
    ...calling,
    'change-orders',
    'end-with-drain',
    'edit-rota',
    'edit-clinic',
    'approve-text',
    'audit',
    'change-rules',
  ],
  administrator: ['manage-staff', 'edit-rota', 'edit-clinic'],
}

/** Whether a role may do a thing. */
export const may = (role: Role, action: Action): boolean => allowed[role].includes(action)

/** The person at the keyboard, as every staff call carries it. */
export const StaffMember = z.strictObject({
  id: z.string(),
  clinicId: z.string(),
  name: z.string(),
  email: z.string(),
  role: Role,
})
export type StaffMember = z.infer<typeof StaffMember>
