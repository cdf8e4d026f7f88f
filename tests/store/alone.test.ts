import { beforeEach, describe, expect, test } from 'vitest'
import { writeAlone } from '../../lib/store/alone.ts'
import { read, write } from '../../lib/store/index.ts'
import { insert } from '../../lib/store/insert.ts'
import { CLINIC, iso, openClinics } from './clinic.ts'
import { databasePerTest } from './database.ts'

databasePerTest()
beforeEach(openClinics)

const body = (id: string) => ({
  id,
  clinicId: CLINIC,
  version: id,
  body: '{}',
  inForceFrom: iso(0),
  recordedAt: iso(0),
  recordedBy: 'test',
})
const kept = () => read((tx) => tx.ruleSet.findMany({ orderBy: { id: 'asc' } }))

describe('writeAlone', () => {
  test('keeps all that was written, and is followed by writes of every kind', async () => {
    const given = await writeAlone(async (tx) => {
      await insert(tx, 'RuleSet', [body('a')])
      await tx.ruleSet.create({ data: body('b') })
      return tx.ruleSet.count()
    })
    expect(given).toBe(2)
    await write((tx) => tx.ruleSet.create({ data: body('c') }))
    expect((await kept()).map(({ id }) => id)).toEqual(['a', 'b', 'c'])
  })

  test('keeps nothing of what fails', async () => {
    const failing = writeAlone(async (tx) => {
      await tx.ruleSet.create({ data: body('a') })
      throw new Error('in the middle')
    })
    await expect(failing).rejects.toThrow('in the middle')
    expect(await kept()).toEqual([])
    await write((tx) => tx.ruleSet.create({ data: body('b') }))
    expect(await kept()).toHaveLength(1)
  })
})
