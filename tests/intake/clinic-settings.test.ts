import { beforeEach, describe, expect, it } from 'vitest'
import { ClinicSettingsPage } from '../../lib/domain/clinic-hours.ts'
import { checkInView, readClinicSettings, saveClinicSettings } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { at, chargeNurse, iso, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { phoneWith } from './sent-by-link.ts'

databasePerTest()
beforeEach(openClinics)

const settings = {
  phone: '+1 555 0123',
  afterHoursPhone: '+1 555 0124',
  hours: {
    week: { mon: [{ from: '08:00', until: '17:00' }] },
    holidays: [{ date: '2026-12-25', name: 'Christmas' }],
  },
  quiet: { from: '20:00', until: '09:00' },
}

describe('the settings of a clinic', () => {
  it('are as the clinic was set up until somebody changes them', async () => {
    expect(await readClinicSettings(chargeNurse)).toEqual({
      settings: { phone: '+1 555 0100', afterHoursPhone: null, hours: null, quiet: null },
      changedAt: null,
      changedBy: null,
    })
  })

  it('are changed by staff, with who and when, and seen on the check-in page', async () => {
    await saveClinicSettings(chargeNurse, settings, 'k1', at(1))
    const page = await readClinicSettings(chargeNurse)
    expect(ClinicSettingsPage.parse(page)).toEqual({
      settings,
      changedAt: iso(1),
      changedBy: chargeNurse.name,
    })
    const { link } = await patient()
    const { session } = await phoneWith(link, 2)
    const { clinic } = await checkInView(session, at(2))
    expect(clinic).toMatchObject({
      phone: '+1 555 0123',
      afterHoursPhone: '+1 555 0124',
      hours: settings.hours,
    })
    expect(clinic).not.toHaveProperty('quiet')
  })

  it('stand in the access record as they were and as they are', async () => {
    await saveClinicSettings(chargeNurse, settings, 'k1', at(1))
    await saveClinicSettings(chargeNurse, { ...settings, phone: '+1 555 0199' }, 'k2', at(2))
    const rows = await read((tx) =>
      tx.accessRecord.findMany({ where: { action: 'edit-clinic' }, orderBy: { seq: 'asc' } }),
    )
    expect(rows[0]?.what).toContain('the opening hours from null to {"week"')
    expect(rows[1]).toMatchObject({
      at: iso(2),
      staffId: chargeNurse.id,
      role: 'charge-nurse',
      what: 'changed the phone number from "+1 555 0123" to "+1 555 0199"',
    })
  })

  it('are changed once per key, each clinic’s own', async () => {
    const saved = await saveClinicSettings(chargeNurse, settings, 'k1', at(1))
    expect(await saveClinicSettings(chargeNurse, settings, 'k1', at(2))).toEqual(saved)
    expect((await readClinicSettings(stranger)).settings.phone).toBe('+1 555 0100')
    expect((await readClinicSettings(stranger)).changedBy).toBeNull()
  })

  it.each([
    ['phone', { phone: '' }],
    ['hours.week.mon[0]', { hours: { week: { mon: [{ from: '17:00', until: '08:00' }] }, holidays: [] } }],
    ['hours.holidays[0].date', { hours: { week: {}, holidays: [{ date: '', name: '' }] } }],
    ['quiet.from', { quiet: { from: '25:00', until: '08:00' } }],
    ['name', { name: 'Another clinic' }],
  ])('are refused with the field that is wrong: %s', async (field, part) => {
    await expect(saveClinicSettings(chargeNurse, { ...settings, ...part }, 'k', at(1))).rejects.toMatchObject(
      { kind: 'invalid-input', faults: [{ field }] },
    )
    expect((await readClinicSettings(chargeNurse)).changedAt).toBeNull()
  })
})
