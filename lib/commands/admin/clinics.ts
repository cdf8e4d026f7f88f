import { randomUUID } from 'node:crypto'
import { recordAccess } from '../../access/record.ts'
import { now } from '../../clock.ts'
import { TimeZone } from '../../domain/instant.ts'
import { Refusal } from '../../domain/problem.ts'
import { admitSystem } from '../../intake/index.ts'
import { addClinic } from '../../store/clinics.ts'
import { write } from '../../store/index.ts'
import { byCommandLine, type Command, done } from './command.ts'
import { theClinic } from './the-clinic.ts'

const createClinic: Command = {
  does: 'makes a clinic',
  needs: { name: 'NAME', zone: 'IANA-ZONE', phone: 'NUMBER' },
  takes: { 'after-hours-phone': 'NUMBER' },
  run: async ({ name = '', zone = '', phone = '', 'after-hours-phone': afterHoursPhone }) => {
    const timeZone = TimeZone.safeParse(zone)
    if (!timeZone.success)
      throw new Refusal(
        'invalid-input',
        `--zone ${zone}: accepted: a time zone of the IANA database, such as America/Denver`,
      )
    const id = randomUUID()
    await write(async (tx) => {
      const at = now()
      await addClinic(
        tx,
        { id, name, timeZone: timeZone.data, phone, afterHoursPhone: afterHoursPhone ?? null, demo: false },
        at,
      )
      await recordAccess(tx, {
        clinicId: id,
        at: at.toISOString(),
        staffId: null,
        actor: byCommandLine,
        action: 'create-clinic',
        patientId: null,
        what: `made the clinic ${name}`,
      })
    })
    return done(`Clinic ${name}: ${id}`)
  },
}

const createSystem: Command = {
  does: 'admits a system that sends reports, and prints its key, once',
  needs: { name: 'NAME' },
  takes: { clinic: 'ID' },
  run: async ({ name = '', clinic }) => {
    const clinicId = await theClinic(clinic)
    const { id, key } = await admitSystem(clinicId, name, byCommandLine)
    await write((tx) =>
      recordAccess(tx, {
        clinicId,
        at: now().toISOString(),
        staffId: null,
        actor: byCommandLine,
        action: 'create-system',
        patientId: null,
        what: `admitted the system ${name} (${id})`,
      }),
    )
    return done(
      `System ${name}: ${id}`,
      `Its key, shown this once and kept nowhere: ${key}`,
      'It sends reports to /api/reports with the header Authorization: Bearer KEY.',
    )
  },
}

export const clinicCommands = { 'create-clinic': createClinic, 'create-system': createSystem }
