// Run by tsx with DATABASE_URL set: an invented clinic with one member of staff of each role. Prints their sign-ins.
import { createStaff } from '../../lib/access/index.ts'
import { Role } from '../../lib/domain/staff.ts'
import { addClinic } from '../../lib/store/clinics.ts'
import { closeStore, write } from '../../lib/store/index.ts'

const clinicId = 'clinic-of-the-walk'
const password = 'winter drains keep flowing'
const clinic = {
  id: clinicId,
  name: 'Walkers clinic (invented)',
  timeZone: 'America/Denver',
  phone: '+1 555 0100',
  afterHoursPhone: null,
  demo: true,
}

await write((tx) => addClinic(tx, clinic, new Date('2026-03-02T08:00:00Z')))
const made = []
for (const role of Role.options) {
  const { email } = await createStaff(
    { clinicId, name: `Invented ${role}`, email: `${role}@walk.example`, role, password },
    'the test',
  )
  made.push({ role, email, password })
}
console.log(JSON.stringify(made))
await closeStore()
