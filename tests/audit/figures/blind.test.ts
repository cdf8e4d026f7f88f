import { beforeEach, describe, expect, it } from 'vitest'
import { auditFigures } from '../../../lib/audit/figures/index.ts'
import { write } from '../../../lib/store/index.ts'
import { CLINIC, openClinics, otherNurse } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { atHome, drawn, local, NOW, PERIOD, physician } from './clinic.ts'

databasePerTest()
beforeEach(openClinics)

type Given = { reading: 1 | 2 | 3; verdict: string; day: number; isOpened?: boolean; by?: string }

/** An item that is read twice, with its verdicts in the order in which they were given. */
async function read(given: readonly Given[]): Promise<void> {
  const { patientId } = await atHome()
  await drawn(patientId, [null, null])
  await write(async (tx) => {
    const { id: itemId } = await tx.reviewItem.findFirstOrThrow({ where: { patientId } })
    for (const [i, { reading, verdict, day, isOpened = false, by = physician.id }] of given.entries())
      await tx.review.create({
        data: {
          id: `${itemId} ${i}`,
          clinicId: CLINIC,
          itemId,
          reading,
          verdict,
          harm: 'none',
          isOpened,
          recordedAt: local(day),
          recordedBy: by,
        },
      })
  })
}

async function agreement() {
  const figures = await auditFigures(physician, PERIOD, NOW)
  const found = figures.find(({ name }) => name === 'agreement')
  if (!found) throw new Error('no figure of agreement')
  const kappa = found.beside.find(({ label }) => label === 'Kappa')?.text
  return { same: found.numerator, of: found.denominator, kappa }
}

const times = async (n: number, given: readonly Given[]) => {
  for (let i = 0; i < n; i++) await read(given)
}

describe('agreement is told of blind verdicts alone', () => {
  it('of two readers: what either changed once it could know more does not count', async () => {
    const tom = otherNurse.id
    await times(3, [
      { reading: 1, verdict: 'warranted', day: 10 },
      { reading: 2, verdict: 'warranted', day: 11, by: tom },
    ])
    const differ: Given[] = [
      { reading: 1, verdict: 'warranted', day: 10 },
      { reading: 2, verdict: 'not-warranted', day: 11, by: tom },
    ]
    await times(2, differ)
    const before = await agreement()
    expect(before).toMatchObject({ same: 3, of: 5 })

    // They come to agree after one has opened what happened, or one has seen the other's; or a third settles it.
    await read([...differ, { reading: 2, verdict: 'warranted', day: 12, isOpened: true, by: tom }])
    await read([...differ, { reading: 1, verdict: 'not-warranted', day: 12 }])
    await read([...differ, { reading: 3, verdict: 'warranted', day: 12 }])
    const after = await agreement()
    expect(after).toMatchObject({ same: 3, of: 8 })
    // 3 of 8 alike, the second says 'not warranted' of the other five: no more than by chance.
    expect(after.kappa).toMatch(/^0\.00 /)
  })

  it('of one reader after a fortnight: not where what happened was opened in between', async () => {
    await times(4, [
      { reading: 1, verdict: 'warranted', day: 10 },
      { reading: 2, verdict: 'warranted', day: 25 },
    ])
    await times(2, [
      { reading: 1, verdict: 'not-warranted', day: 10 },
      { reading: 2, verdict: 'not-warranted', day: 25 },
    ])
    const both = await agreement()
    expect(both).toMatchObject({ same: 6, of: 6 })
    expect(both.kappa).toMatch(/^1\.00 /)

    await read([
      { reading: 1, verdict: 'warranted', day: 10 },
      { reading: 2, verdict: 'not-warranted', day: 25, isOpened: true },
    ])
    // The first reading alone had been opened: nothing of it was blind.
    await read([
      { reading: 1, verdict: 'warranted', day: 10, isOpened: true },
      { reading: 2, verdict: 'not-warranted', day: 25 },
    ])
    expect(await agreement()).toEqual(both)
  })
})
