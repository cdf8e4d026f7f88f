import { betterAuth } from 'better-auth'
import { beforeEach, describe, expect, it } from 'vitest'
import { answerOnce } from '../../lib/store/answered.ts'
import { closeStore, read, signInDatabase, snapshot, write } from '../../lib/store/index.ts'
import { takeLease } from '../../lib/store/leases.ts'
import { at, CLINIC, iso, nurse, openClinics } from './clinic.ts'
import { databasePerTest } from './database.ts'

databasePerTest()
beforeEach(openClinics)

const fact = (name: string) => ({ data: { name, value: 'x', recordedAt: iso(0) } })
const pragma = (name: string) =>
  read(async (tx) => Object.values(((await tx.$queryRawUnsafe(`PRAGMA ${name}`)) as object[])[0] ?? {})[0])

describe('the store', () => {
  it('keeps a write-ahead log, forces each commit to the disk and enforces foreign keys', async () => {
    expect([await pragma('journal_mode'), await pragma('synchronous'), await pragma('foreign_keys')]).toEqual(
      ['wal', 2n, 1n],
    )
    await expect(
      write((tx) =>
        tx.drain.create({
          data: {
            id: 'd',
            clinicId: CLINIC,
            patientId: 'nobody',
            ordinal: 0,
            label: 'x',
            kind: 'bulb',
            placedAt: iso(0),
            recordedAt: iso(0),
            recordedBy: nurse.id,
          },
        }),
      ),
    ).rejects.toThrow(/foreign key/i)
  })

  it('interleaves no two transactions', async () => {
    const marks: string[] = []
    const one = (name: string) =>
      write(async (tx) => {
        marks.push(`${name} begins`)
        await tx.fact.create(fact(name))
        await new Promise((resolve) => setTimeout(resolve, 5))
        await tx.fact.findMany()
        marks.push(`${name} ends`)
      })
    await Promise.all([one('a'), one('b'), one('c')])
    expect(marks).toEqual(['a begins', 'a ends', 'b begins', 'b ends', 'c begins', 'c ends'])
  })

  it('undoes all of a transaction that fails, and goes on with the next', async () => {
    const failing = write(async (tx) => {
      await tx.fact.create(fact('lost'))
      throw new Error('half way')
    })
    const next = write((tx) => tx.fact.create(fact('kept')))
    await expect(failing).rejects.toThrow('half way')
    await next
    expect(await read((tx) => tx.fact.findMany())).toMatchObject([{ name: 'kept' }])
  })

  it('reads what is committed, and nothing of an open transaction', async () => {
    let seen = -1
    await write(async (tx) => {
      await tx.fact.create(fact('open'))
      seen = await read((reader) => reader.fact.count())
    })
    expect([seen, await read((tx) => tx.fact.count())]).toEqual([0, 1])
  })

  it('reads one and the same instant in a snapshot', async () => {
    const counts = await snapshot(async (tx) => {
      const before = await tx.fact.count()
      await write((writer) => writer.fact.create(fact('meanwhile')))
      return [before, await tx.fact.count()]
    })
    expect(counts).toEqual([0, 0])
    expect(await snapshot((tx) => tx.fact.count())).toBe(1)
  })

  it('refuses a transaction within a transaction rather than wait for itself', async () => {
    await expect(write(() => write(async () => 1))).rejects.toThrow(/wait for itself/)
  })

  it('keeps what was written when it is closed and opened again', async () => {
    await write((tx) => tx.fact.create(fact('kept')))
    await closeStore()
    expect(await read((tx) => tx.fact.count())).toBe(1)
  })
})

describe('an answered request', () => {
  const request = { clinicId: CLINIC, source: 's', key: 'a-key', body: { a: 1, b: [2] } }
  const ask = (change: object, answer: unknown) =>
    write((tx) => answerOnce(tx, { ...request, ...change }, iso(0), async () => answer))

  it('is done once; a repeat gets the first answer', async () => {
    expect(await ask({}, { link: 'secret' })).toEqual({ link: 'secret' })
    expect(await ask({ body: { b: [2], a: 1 } }, { link: 'other' })).toEqual({ link: 'secret' })
    await expect(ask({ body: { a: 2 } }, null)).rejects.toMatchObject({ kind: 'key-reused' })
  })

  it('stands sealed: neither key nor answer can be read', async () => {
    await ask({}, { link: 'secret' })
    expect(JSON.stringify(await read((tx) => tx.answered.findMany()))).not.toMatch(/secret|a-key/)
  })
})

describe('a lease', () => {
  it('has one holder until it lapses, and may be renewed', async () => {
    const take = (holder: string, hours: number) =>
      write((tx) => takeLease(tx, 'sweep', holder, at(hours), 60_000))
    expect(await take('a', 0)).toBe(true)
    expect(await take('b', 0.01)).toBe(false)
    expect(await take('a', 0.01)).toBe(true)
    expect(await take('b', 0.02)).toBe(false)
    expect(await take('b', 0.03)).toBe(true)
  })

  it('of a clock that was set back has lapsed', async () => {
    await write((tx) => takeLease(tx, 'sweep', 'a', at(50), 60_000))
    expect(await write((tx) => takeLease(tx, 'sweep', 'b', at(0), 60_000))).toBe(true)
  })
})

describe('the sign-in library', () => {
  it('writes in the same queue: a sign-up beside open transactions waits its turn, and is there', async () => {
    const auth = betterAuth({
      baseURL: 'http://127.0.0.1:3000',
      secret: 'a secret for this test alone, long enough',
      telemetry: { enabled: false },
      database: signInDatabase(),
      user: {
        modelName: 'staff',
        additionalFields: { clinicId: { type: 'string' }, role: { type: 'string' } },
      },
      emailAndPassword: { enabled: true },
    })
    const slow = (name: string) =>
      write(async (tx) => {
        await tx.fact.create(fact(name))
        await new Promise((resolve) => setTimeout(resolve, 50))
      })
    const body = {
      email: 'new@larkfield.example',
      password: 'correct horse battery',
      name: 'New Invented',
      clinicId: CLINIC,
      role: 'nurse',
    }
    const [, signedUp] = await Promise.all([slow('a'), auth.api.signUpEmail({ body }), slow('b'), slow('c')])
    expect(signedUp.user.email).toBe(body.email)
    const signedIn = await auth.api.signInEmail({ body: { email: body.email, password: body.password } })
    expect(signedIn.user.id).toBe(signedUp.user.id)
    expect(await read((tx) => tx.staff.findUnique({ where: { email: body.email } }))).toMatchObject({
      clinicId: CLINIC,
      role: 'nurse',
    })
    expect(await read((tx) => tx.fact.count())).toBe(3)
  })
})
