import { beforeEach, expect, it } from 'vitest'
import { standardHabit } from '../../lib/domain/list-view.ts'
import { write } from '../../lib/store/index.ts'
import { keepPreference, readPreference } from '../../lib/worklist/index.ts'
import { at, nurse, openClinics, otherNurse } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const habit = { sort: 'name', group: 'kind', columns: ['found'] } as const

it('remembers a choice for one person, the last one', async () => {
  expect(await readPreference(nurse, 'worklist')).toEqual(standardHabit)
  await keepPreference(nurse, 'worklist', { ...habit, sort: 'heard' }, at(0))
  await keepPreference(nurse, 'worklist', habit, at(1))
  expect(await readPreference(nurse, 'worklist')).toEqual(habit)
  expect(await readPreference(otherNurse, 'worklist')).toEqual(standardHabit)
})

it.each([
  ['another word', { ...habit, sort: 'colour' }],
  ['a further field', { ...habit, hide: 'all' }],
  ['nothing', null],
])('refuses %s and keeps what was', async (_, body) => {
  await keepPreference(nurse, 'worklist', habit, at(0))
  await expect(keepPreference(nurse, 'worklist', body, at(1))).rejects.toThrow()
  expect(await readPreference(nurse, 'worklist')).toEqual(habit)
})

it('knows no other name, and none of the language', async () => {
  for (const name of ['sound', 'toString', '__proto__'])
    await expect(readPreference(nurse, name)).rejects.toMatchObject({ kind: 'not-found' })
})

it('takes what can no longer be read as not chosen', async () => {
  for (const value of ['{', '{"sort":"colour"}']) {
    await write((tx) =>
      tx.preference.upsert({
        where: { staffId_name: { staffId: nurse.id, name: 'worklist' } },
        create: { staffId: nurse.id, name: 'worklist', value, recordedAt: at(0).toISOString() },
        update: { value },
      }),
    )
    expect(await readPreference(nurse, 'worklist')).toEqual(standardHabit)
  }
})
