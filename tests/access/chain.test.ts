import { beforeEach, describe, expect, it } from 'vitest'
import { recordAccess, verifyChain } from '../../lib/access/index.ts'
import { read, write } from '../../lib/store/index.ts'
import { HERE, usePlace } from './place.ts'

usePlace()

const entry = (what: string, clinicId = HERE) => ({
  clinicId,
  at: '2026-03-02T08:00:00.000Z',
  staffId: null,
  actor: 'the test',
  action: 'view-patient',
  patientId: 'p1',
  what,
})
const verdict = (known?: { seq: number; hash: string }) => read((tx) => verifyChain(tx, HERE, known))
const spoil = (statement: string) => write((tx) => tx.$executeRawUnsafe(statement))

describe('the access record', () => {
  beforeEach(async () => {
    for (const what of ['one', 'two', 'three', 'four', 'five'])
      await write((tx) => recordAccess(tx, entry(what)))
  })

  it('is whole as it was written, each clinic for itself', async () => {
    await write((tx) => recordAccess(tx, entry('elsewhere', 'other')))
    expect(await verdict()).toMatchObject({ whole: true, rows: 5 })
    expect(await read((tx) => verifyChain(tx, 'other'))).toMatchObject({ whole: true, rows: 1 })
  })

  it('stays whole when many write at once', async () => {
    await Promise.all(
      Array.from({ length: 40 }, (_, i) => write((tx) => recordAccess(tx, entry(`at once ${i}`)))),
    )
    expect(await verdict()).toMatchObject({ whole: true, rows: 45 })
  })

  it('is not written when what it tells of did not happen', async () => {
    await expect(
      write(async (tx) => {
        await recordAccess(tx, entry('undone'))
        throw new Error('undone')
      }),
    ).rejects.toThrow('undone')
    expect(await verdict()).toMatchObject({ whole: true, rows: 5 })
  })

  it.each(['at', 'staffId', 'actor', 'role', 'action', 'patientId', 'what'])(
    'tells of a changed %s',
    async (column) => {
      await spoil(`UPDATE "AccessRecord" SET "${column}" = 'forged' WHERE "seq" = 3`)
      expect(await verdict()).toMatchObject({
        whole: false,
        rows: 2,
        broken: 'row 3 is not as it was written',
      })
    },
  )

  it('tells of a changed row whose own hash was made to fit', async () => {
    await spoil(`UPDATE "AccessRecord" SET "what" = 'forged', "hash" = '${'a'.repeat(64)}' WHERE "seq" = 3`)
    expect(await verdict()).toMatchObject({ whole: false })
  })

  it('tells of a removed row', async () => {
    await spoil(`DELETE FROM "AccessRecord" WHERE "seq" = 3`)
    expect(await verdict()).toMatchObject({
      whole: false,
      rows: 2,
      broken: expect.stringContaining('row 3 is missing'),
    })
  })

  it('tells of a removed row behind which the others were counted anew', async () => {
    await spoil(`DELETE FROM "AccessRecord" WHERE "seq" = 3`)
    await spoil(`UPDATE "AccessRecord" SET "seq" = "seq" - 1 WHERE "seq" > 3`)
    expect(await verdict()).toMatchObject({
      whole: false,
      rows: 2,
      broken: expect.stringContaining('does not follow'),
    })
  })

  it('tells of the first row removed', async () => {
    await spoil(`DELETE FROM "AccessRecord" WHERE "seq" = 1`)
    expect(await verdict()).toMatchObject({ whole: false, rows: 0 })
  })

  it('tells of two rows that changed places', async () => {
    await spoil(`UPDATE "AccessRecord" SET "seq" = 99 WHERE "seq" = 2`)
    await spoil(`UPDATE "AccessRecord" SET "seq" = 2 WHERE "seq" = 3`)
    await spoil(`UPDATE "AccessRecord" SET "seq" = 3 WHERE "seq" = 99`)
    expect(await verdict()).toMatchObject({
      whole: false,
      rows: 1,
      broken: expect.stringContaining('does not follow'),
    })
  })

  it('tells of an end that was cut off, to who noted the head', async () => {
    const before = await verdict()
    if (!before.whole) throw new Error('not whole')
    await spoil(`DELETE FROM "AccessRecord" WHERE "seq" = 5`)
    expect(await verdict()).toMatchObject({ whole: true, rows: 4 })
    expect(await verdict({ seq: 5, hash: before.head })).toMatchObject({
      whole: false,
      broken: expect.stringContaining('ends at row 4'),
    })
  })

  it('tells of a record that was written anew, to who noted a row', async () => {
    await spoil(`DELETE FROM "AccessRecord"`)
    for (const what of ['other', 'things', 'were', 'done', 'here'])
      await write((tx) => recordAccess(tx, entry(what)))
    expect(await verdict()).toMatchObject({ whole: true, rows: 5 })
    expect(await verdict({ seq: 4, hash: 'b'.repeat(64) })).toMatchObject({
      whole: false,
      broken: 'row 4 is not the one that was noted',
    })
  })
})
