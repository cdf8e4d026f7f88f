import { beforeEach, describe, expect, it } from 'vitest'
import { AdviceTextsPage } from '../../lib/domain/advice-text-page.ts'
import { standardAdvice } from '../../lib/domain/texts/advice.ts'
import { approveAdviceText, checkInView, readAdviceTexts, saveAdviceText } from '../../lib/intake/index.ts'
import { read, write } from '../../lib/store/index.ts'
import { at, chargeNurse, iso, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { phoneWith } from './sent-by-link.ts'

databasePerTest()
beforeEach(openClinics)

const staff = chargeNurse
const fever = (text: string, language = 'en') => ({ name: 'fever', language, text })
const save = (text: string, key: string, language = 'en', hours = 1) =>
  saveAdviceText(staff, fever(text, language), key, at(hours))
const shown = async (language: 'en' | 'es' = 'en') => {
  const { link } = await patient()
  const { session } = await phoneWith(link, 10)
  return (await checkInView(session, at(10))).texts[language].fever
}
const onScreen = async (language: string) => {
  const { cases } = await readAdviceTexts(staff)
  return cases.find(({ name }) => name === 'fever')?.languages.find((one) => one.language === language)
}

describe('a text of advice', () => {
  it('is the standard one until the clinic has approved its own', async () => {
    expect(await shown()).toEqual(standardAdvice.en.fever)
    const { id, version } = await save('Call us now on the big number.', 'k1')
    expect(version).toBe(1)
    expect(await shown()).toEqual(standardAdvice.en.fever)
    await approveAdviceText(staff, { id }, 'a1', at(2))
    expect(await shown()).toEqual({ text: 'Call us now on the big number.', version: '1', read: true })
  })

  it('is the newest approved version; those before and after stay on record', async () => {
    const first = await save('One.', 'k1')
    const second = await save('Two.', 'k2')
    await save('Three.', 'k3', 'en', 3)
    await approveAdviceText(staff, { id: second.id }, 'a2', at(4))
    expect(await shown()).toMatchObject({ text: 'Two.', version: '2' })
    await expect(approveAdviceText(staff, { id: first.id }, 'a1', at(5))).rejects.toMatchObject({
      kind: 'conflict',
    })
    await expect(approveAdviceText(staff, { id: second.id }, 'a3', at(5))).rejects.toMatchObject({
      kind: 'conflict',
    })
    const page = await readAdviceTexts(staff)
    expect(AdviceTextsPage.parse(page)).toEqual(page)
    expect(await onScreen('en')).toMatchObject({
      inForce: { text: 'Two.', version: '2', read: true },
      standard: standardAdvice.en.fever.text,
      versions: [
        { version: 3, text: 'Three.', writtenAt: iso(3), writtenBy: staff.name, approvedAt: null },
        { version: 2, text: 'Two.', approvedAt: iso(4), approvedBy: staff.name },
        { version: 1, text: 'One.', approvedAt: null },
      ],
    })
  })

  it('in another language needs the name of the qualified person who read it', async () => {
    const { id } = await save('Llame ahora.', 'k1', 'es')
    await expect(approveAdviceText(staff, { id }, 'a1', at(2))).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [{ field: 'readBy' }],
    })
    await approveAdviceText(staff, { id, readBy: 'Inés Invented, RN, interpreter' }, 'a2', at(2))
    expect(await shown('es')).toEqual({ text: 'Llame ahora.', version: '1', read: true })
    expect(await onScreen('es')).toMatchObject({ versions: [{ readBy: 'Inés Invented, RN, interpreter' }] })
    expect(await shown('en')).toEqual(standardAdvice.en.fever)
  })

  it('is written and approved once per key, and the access record says so', async () => {
    const one = await save('One.', 'k1')
    expect(await save('One.', 'k1', 'en', 2)).toEqual(one)
    await approveAdviceText(staff, { id: one.id }, 'a1', at(2))
    expect(await approveAdviceText(staff, { id: one.id }, 'a1', at(3))).toEqual({ version: 1 })
    const rows = await read((tx) => tx.accessRecord.findMany({ where: { staffId: staff.id } }))
    expect(rows.map(({ action, what }) => [action, what])).toEqual([
      ['write-text', 'wrote the text fever (en), version 1'],
      ['approve-text', 'approved the text fever (en), version 1'],
    ])
  })

  it.each([
    ['an unknown case', { ...fever('x'), name: 'headache' }, 'name'],
    ['a language that is not spoken to', fever('x', 'fr'), 'language'],
    ['no words', fever('  '), 'text'],
    ['too many words', fever('x'.repeat(401)), 'text'],
  ])('is refused for %s', async (_, body, field) => {
    await expect(saveAdviceText(staff, body, 'k', at(1))).rejects.toMatchObject({ faults: [{ field }] })
  })

  it('is each clinic’s own', async () => {
    const { id } = await save('Ours.', 'k1')
    await expect(approveAdviceText(stranger, { id }, 'a', at(2))).rejects.toMatchObject({ kind: 'not-found' })
    await approveAdviceText(staff, { id }, 'a', at(2))
    const { cases } = await readAdviceTexts(stranger)
    expect(cases.find(({ name }) => name === 'fever')?.languages[0]?.inForce).toEqual(standardAdvice.en.fever)
  })

  it('that cannot be read in the store gives way to the standard one', async () => {
    const { id } = await save('Ours.', 'k1')
    await approveAdviceText(staff, { id }, 'a', at(2))
    await write((tx) => tx.adviceText.update({ where: { id }, data: { approvedAt: 'some day' } }))
    expect(await shown()).toEqual(standardAdvice.en.fever)
  })
})
