import { beforeEach, describe, expect, it } from 'vitest'
import { correctCallback, readPatientPage, recordCallback } from '../../lib/worklist/index.ts'
import { at, nurse, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

const reached = { outcome: 'reached', spokenTo: 'patient', agreed: ['self-care'] }
const asked = (drain: string | null) => [
  { code: 'leak', drain, question: 'Wet dressing?', answer: 'yes' },
  { code: 'leak', drain: null, question: 'Who is with you?', answer: '' },
]
const callsOf = async (patientId: string) => (await readPatientPage(nurse, patientId, at(9))).callbacks

describe('what was asked in a call', () => {
  it('is kept with it, answered or not', async () => {
    const { patientId, drain } = await patient()
    await recordCallback(nurse, patientId, { ...reached, asked: asked(drain) }, 'k', at(1))
    expect((await callsOf(patientId)).map((call) => call.asked)).toEqual([asked(drain)])
  })
  it('is nothing in a call without it', async () => {
    const { patientId } = await patient()
    await recordCallback(nurse, patientId, reached, 'k', at(1))
    expect((await callsOf(patientId)).map((call) => call.asked)).toEqual([[]])
  })
  it('stays with its correction, unless nobody was reached after all', async () => {
    const { patientId, drain } = await patient()
    const { callback } = await recordCallback(
      nurse,
      patientId,
      { ...reached, asked: asked(drain) },
      'k',
      at(1),
    )
    const again = await correctCallback(
      nurse,
      patientId,
      callback,
      { ...reached, spokenTo: 'helper', why: 'it was the daughter' },
      'c1',
      at(2),
    )
    const byId = async (id: string) => (await callsOf(patientId)).find((call) => call.id === id)?.asked
    expect(await byId(again.callback)).toEqual(asked(drain))
    const none = await correctCallback(
      nurse,
      patientId,
      again.callback,
      { outcome: 'wrong-number', why: 'somebody else' },
      'c2',
      at(3),
    )
    expect(await byId(none.callback)).toEqual([])
    expect(await byId(callback)).toEqual(asked(drain))
  })
  it.each([
    ['nobody was reached', { outcome: 'no-answer', asked: asked(null) }, 'asked'],
    ['a drain is not this patient’s', { ...reached, asked: asked('another') }, 'asked[0].drain'],
    [
      'a question has no words',
      { ...reached, asked: [{ code: 'leak', drain: null, question: ' ', answer: '' }] },
      'asked[0].question',
    ],
  ])('is refused where %s', async (_, body, field) => {
    const { patientId } = await patient()
    await expect(recordCallback(nurse, patientId, body, 'k', at(1))).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field }],
    })
  })
})
