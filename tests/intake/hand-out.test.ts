import { beforeEach, expect, it } from 'vitest'
import { HandOut } from '../../lib/domain/hand-out.ts'
import { emptyProfile } from '../../lib/domain/profile.ts'
import { noteHandOutPrinted, readHandOut } from '../../lib/intake/hand-out.ts'
import { changeOrders, enrol, stepVisit } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { recordStaffEvent } from '../../lib/worklist/index.ts'
import { at, enrolment, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

it('the hand-out has the orders in force and the visits that lie ahead', async () => {
  const { patientId } = await enrol(
    nurse,
    enrolment(
      { profile: { ...emptyProfile, checkInLanguage: 'es' } },
      { vessel: 'bag', dressingType: 'gauze', lengthMarkCm: 22 },
    ),
    'k',
    at(0),
  )
  const { id: drain } = await read((tx) => tx.drain.findFirstOrThrow({ where: { patientId } }))
  await changeOrders(
    nurse,
    patientId,
    drain,
    {
      why: 'as agreed',
      logEveryHours: 12,
      flush: { volumeMl: 10, everyHours: 12 },
      flushAt: ['21:00', '09:00'],
      overrides: { feverC: 38.5 },
    },
    'o',
    at(1),
  )
  await stepVisit(nurse, patientId, { drain, kind: 'exchange', state: 'booked', at: iso(48) }, 'v', at(2))
  const handOut = await readHandOut(nurse, patientId, at(3))
  expect(HandOut.parse(handOut)).toEqual(handOut)
  expect(handOut).toMatchObject({
    clinic: { name: 'Larkfield clinic (invented)', phone: '+1 555 0100', hours: null },
    patient: { birthDate: '1960-05-17', language: 'es' },
    feverC: 38.5,
    drains: [
      {
        label: 'left kidney',
        capped: false,
        vessel: 'bag',
        lengthMarkCm: 22,
        logEveryHours: 12,
        dressingType: 'gauze',
        flush: { volumeMl: 10, everyHours: 12, at: ['09:00', '21:00'] },
        visits: [{ kind: 'exchange', state: 'booked', bookedFor: iso(48) }],
      },
    ],
  })
  expect((await readHandOut(nurse, patientId, at(49))).drains[0]?.visits).toEqual([])
  await recordStaffEvent(nurse, patientId, { at: iso(50), drain, type: 'removed' }, 'r', at(50))
  expect((await readHandOut(nurse, patientId, at(51))).drains).toEqual([])
})

it('a view and a print stand in the access record', async () => {
  const { patientId } = await patient()
  await readHandOut(nurse, patientId, at(1))
  await noteHandOutPrinted(nurse, patientId, { language: 'es', link: true }, at(1))
  const rows = await read((tx) => tx.accessRecord.findMany({ where: { patientId }, orderBy: { seq: 'asc' } }))
  expect(rows.map(({ action, what }) => [action, what]).slice(1)).toEqual([
    ['view-patient', 'opened the hand-out'],
    ['print-hand-out', 'printed the hand-out (es), with a link'],
  ])
  await expect(noteHandOutPrinted(nurse, patientId, { language: 'xx' }, at(1))).rejects.toMatchObject({
    kind: 'invalid-input',
  })
})

it('another clinic’s patient has none', async () => {
  const { patientId } = await patient()
  await expect(readHandOut(stranger, patientId, at(1))).rejects.toMatchObject({ kind: 'not-found' })
  await expect(
    noteHandOutPrinted(stranger, patientId, { language: 'en', link: false }, at(1)),
  ).rejects.toMatchObject({ kind: 'not-found' })
})
