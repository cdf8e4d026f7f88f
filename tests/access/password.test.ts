import { describe, expect, it } from 'vitest'
import { hashPassword, passwordTrouble, verifyPassword } from '../../lib/access/password.ts'

describe('a password is taken', () => {
  it.each([
    'winter drains keep flowing',
    'correct horse battery staple',
    'a🙂 few smiling words here',
    'tV9#kq2!Lm7$Zx4&Wd',
    `${'long words without an end '.repeat(4)}`,
  ])('%s', (password) => {
    expect(passwordTrouble(password)).toBeNull()
  })
})

describe('a password is not taken', () => {
  it.each([
    ['short', 'fourteen chars', 'at least 15'],
    ['of few code points, many units', '🙂'.repeat(14), 'at least 15'],
    ['over-long', 'x'.repeat(129), 'at most 128'],
    ['a common one twice', 'passwordpassword', 'easily guessed'],
    ['a common one, dressed up', 'P@ssw0rdP@ssw0rd1', 'easily guessed'],
    ['along the keyboard', 'qwertyuiopasdfg', 'easily guessed'],
    ['one character', 'aaaaaaaaaaaaaaa', 'easily guessed'],
    ['counting', '123456789012345', 'easily guessed'],
    ['two common ones', 'iloveyou iloveyou', 'easily guessed'],
  ])('%s', (_, password, why) => {
    expect(passwordTrouble(password)).toContain(why)
  })

  it('what an attacker knows of its owner', () => {
    expect(passwordTrouble('nora@larkfield.example', ['Nora Invented', 'nora@larkfield.example'])).toContain(
      'easily guessed',
    )
  })
})

describe('a hash', () => {
  it('is argon2id with at least 19 MiB, and another one each time', async () => {
    const [one, two] = await Promise.all([hashPassword('winter drains'), hashPassword('winter drains')])
    expect(one).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
    expect(one).not.toBe(two)
  })

  it('knows its password and no other', async () => {
    const hash = await hashPassword('winter drains')
    expect([await verifyPassword(hash, 'winter drains'), await verifyPassword(hash, 'winter drain')]).toEqual(
      [true, false],
    )
  })

  it('that cannot be read lets nobody in', async () => {
    expect(await verifyPassword('', 'winter drains')).toBe(false)
  })
})
