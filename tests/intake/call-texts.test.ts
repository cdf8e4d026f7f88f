import { beforeEach, describe, expect, it } from 'vitest'
import { CallTextsPage } from '../../lib/domain/call-text.ts'
import { standardCallTexts } from '../../lib/domain/call-text-standard.ts'
import { readCallTexts, saveCallText } from '../../lib/intake/index.ts'
import { read, write } from '../../lib/store/index.ts'
import { readPatientPage } from '../../lib/worklist/index.ts'
import { at, chargeNurse, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const body = (advice: string) => ({
  ask: [{ question: 'Is it wet?', answer: 'leak' as const }],
  advise: [advice],
  escalate: ['Call us.'],
})
const save = (basedOn: number, text: string | null, key: string, staff = chargeNurse) =>
  saveCallText(staff, { code: 'leak', basedOn, body: text === null ? null : body(text) }, key, at(basedOn))
const leakOf = async (staff = nurse) =>
  (await readCallTexts(staff)).findings.find(({ code }) => code === 'leak')
const onPage = async () => {
  const { patientId } = await patient()
  return (await readPatientPage(nurse, patientId, at(50))).callTexts
}

describe('the texts of the call', () => {
  it('are the standard ones, marked as such, until a clinic keeps its own', async () => {
    const page = await readCallTexts(nurse)
    expect(CallTextsPage.parse(page)).toEqual(page)
    for (const { code, isStandard, body: text, versions } of page.findings) {
      expect([isStandard, versions]).toEqual([true, []])
      expect(text).toEqual(standardCallTexts[code])
    }
    expect(await onPage()).toEqual({})
  })

  it('are the newest version; earlier ones stay, with who and when', async () => {
    expect(await save(0, 'One.', 'k1')).toEqual({ version: 1 })
    expect(await save(1, 'Two.', 'k2')).toEqual({ version: 2 })
    expect(await save(1, 'Two.', 'k2')).toEqual({ version: 2 })
    expect(await leakOf()).toEqual({
      code: 'leak',
      isStandard: false,
      body: body('Two.'),
      versions: [
        { version: 2, body: body('Two.'), at: iso(1), by: chargeNurse.name },
        { version: 1, body: body('One.'), at: iso(0), by: chargeNurse.name },
      ],
    })
    expect(await onPage()).toEqual({ leak: { version: 2, body: body('Two.') } })
    const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'edit-call-text' } }))
    expect(seen.map(({ what }) => what)).toEqual([
      'texts of the call for leak, version 1',
      'texts of the call for leak, version 2',
    ])
  })

  it('go back to the standard by a further version', async () => {
    await save(0, 'One.', 'k1')
    await save(1, null, 'k2')
    expect(await leakOf()).toMatchObject({
      isStandard: true,
      body: standardCallTexts.leak,
      versions: [
        { version: 2, body: null },
        { version: 1, body: body('One.') },
      ],
    })
    expect(await onPage()).toEqual({})
  })

  it('written by two at once: the second is told, and nothing is written over', async () => {
    const [first, second] = await Promise.allSettled([save(0, 'Hers.', 'k1'), save(0, 'His.', 'k2', nurse)])
    expect([first.status, second.status]).toEqual(['fulfilled', 'rejected'])
    expect(second).toMatchObject({ reason: { kind: 'conflict', message: /Version 1 .* meanwhile/ } })
    expect((await leakOf())?.versions.map((one) => one.body)).toEqual([body('Hers.')])
  })

  it('are each clinic’s own', async () => {
    await save(0, 'Ours.', 'k1')
    expect(await leakOf(stranger)).toMatchObject({ isStandard: true, versions: [] })
    expect(await save(0, 'Theirs.', 'k2', stranger)).toEqual({ version: 1 })
    expect((await leakOf())?.body).toEqual(body('Ours.'))
  })

  it('that cannot be read give way to the standard, not to an older version', async () => {
    await save(0, 'One.', 'k1')
    await save(1, 'Two.', 'k2')
    await write((tx) => tx.$executeRaw`UPDATE "CallText" SET "body" = '{}' WHERE "version" = 2`)
    expect(await onPage()).toEqual({})
  })

  it.each([
    ['no question', { ...body('x'), ask: [] }, 'body.ask'],
    [
      'a question of no words',
      { ...body('x'), ask: [{ question: ' ', answer: 'words' }] },
      'body.ask[0].question',
    ],
    [
      'an answer that is none',
      { ...body('x'), ask: [{ question: 'x?', answer: 'song' }] },
      'body.ask[0].answer',
    ],
    ['too many sentences', { ...body('x'), escalate: Array(5).fill('x.') }, 'body.escalate'],
    ['a sentence too long', body('x'.repeat(241)), 'body.advise[0]'],
  ])('are refused with %s', async (_, text, field) => {
    await expect(
      saveCallText(chargeNurse, { code: 'leak', basedOn: 0, body: text }, 'k', at(0)),
    ).rejects.toMatchObject({ kind: 'invalid-input', faults: [{ field }] })
  })
})
