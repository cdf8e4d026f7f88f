import { describe, expect, it } from 'vitest'
import {
  createStaff,
  disableAccount,
  linkToSetPassword,
  listStaff,
  setRole,
  verifyChain,
} from '../../lib/access/index.ts'
import { read } from '../../lib/store/index.ts'
import { HERE, member, PASSWORD, usePlace } from './place.ts'

usePlace()

const person = {
  clinicId: HERE,
  name: 'Nora Invented',
  email: 'Nora@Larkfield.example',
  role: 'nurse' as const,
  password: PASSWORD,
}
const refused = (change: object) =>
  createStaff({ ...person, ...change }, 'the test').then(
    () => null,
    (error) => error,
  )

describe('an account', () => {
  it('is made once per address, whatever its case', async () => {
    expect(await createStaff(person, 'the test')).toMatchObject({
      email: 'nora@larkfield.example',
      role: 'nurse',
    })
    expect(await refused({ email: 'NORA@larkfield.example' })).toMatchObject({ kind: 'conflict' })
  })

  it.each([
    ['no such clinic', { clinicId: 'nowhere' }, 'not-found'],
    ['no address', { email: 'nora' }, 'invalid-input'],
    ['no role of ours', { role: 'surgeon' }, 'invalid-input'],
    ['no name', { name: ' ' }, 'invalid-input'],
    ['a password that is guessed', { password: 'nora@larkfield.example' }, 'invalid-input'],
  ])('with %s is refused, and nothing is kept', async (_, change, kind) => {
    expect(await refused(change)).toMatchObject({ kind })
    expect((await listStaff()).rows).toEqual([])
  })

  it('names no password in a fault', async () => {
    const error = await refused({ password: 'qwertyuiopasdfg' })
    expect(JSON.stringify(error.faults)).not.toContain('qwerty')
  })

  it('and what becomes of it stand in the access record', async () => {
    const { email } = await member()
    await setRole(email, 'physician', 'an administrator')
    await disableAccount(email, 'an administrator')
    const rows = await read((tx) => tx.accessRecord.findMany({ orderBy: { seq: 'asc' } }))
    expect(rows.map(({ action }) => action)).toEqual(['create-staff', 'set-role', 'disable-staff'])
    expect(rows[1]?.what).toContain('from nurse to physician')
    expect(await read((tx) => verifyChain(tx, HERE))).toMatchObject({ whole: true, rows: 3 })
  })

  it('that nobody has is named as such', async () => {
    await expect(setRole('nobody@larkfield.example', 'nurse', 'x')).rejects.toMatchObject({
      kind: 'not-found',
    })
    await expect(linkToSetPassword('nobody@larkfield.example')).rejects.toMatchObject({ kind: 'not-found' })
  })

  it('keeps a hash, never a password', async () => {
    await member()
    const { password } = await read((tx) => tx.account.findFirstOrThrow())
    expect(password).toMatch(/^\$argon2id\$/)
  })
})
