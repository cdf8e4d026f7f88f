import { beforeEach, describe, expect, it } from 'vitest'
import {
  checkInSession,
  exchangeLink,
  issueRenewalCode,
  renewByCode,
  revokeLinks,
} from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { at, iso, nurse, openClinics, patient, stranger } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import { tokenOf } from './sent-by-link.ts'

databasePerTest()
beforeEach(openClinics)

const END = 180 * 24
const minutes = (n: number) => n / 60
const other = (code: string) => String((Number(code) + 1) % 100_000_000).padStart(8, '0')
const said = (work: Promise<unknown>) =>
  work.then(
    () => 'let in',
    (error: { kind: string; detail: string }) => `${error.kind}: ${error.detail}`,
  )

describe('a renewal code', () => {
  it('renews a link that has ended for another 180 days and opens a session', async () => {
    const { patientId, link } = await patient()
    const token = tokenOf(link)
    await expect(exchangeLink(token, at(END + 1))).rejects.toMatchObject({ kind: 'link-not-valid' })
    const { code, expiresAt } = await issueRenewalCode(nurse, patientId, 'c1', at(END + 1))
    expect(code).toMatch(/^\d{8}$/)
    expect(expiresAt).toBe(iso(END + 1.25))
    const spoken = `${code.slice(0, 4)} ${code.slice(4)}`
    const renewed = await renewByCode({ token, code: spoken }, at(END + 1 + minutes(14)))
    expect(Date.parse(renewed.expiresAt)).toBe(at(END + 1 + minutes(14) + END).getTime())
    expect(await checkInSession(renewed.session, at(END + 50))).toMatchObject({ patientId })
    expect(await said(exchangeLink(token, at(END + 50)))).toBe('let in')
    expect(await read((tx) => tx.accessRecord.findMany({ where: { action: 'renew-link' } }))).toHaveLength(1)
  })

  it('is kept as a hash, made once per key, and ends the one before', async () => {
    const { patientId, link } = await patient()
    const first = await issueRenewalCode(nurse, patientId, 'c1', at(1))
    expect(await issueRenewalCode(nurse, patientId, 'c1', at(1))).toEqual(first)
    expect(JSON.stringify(await read((tx) => tx.renewalCode.findMany()))).not.toContain(first.code)
    const second = await issueRenewalCode(nurse, patientId, 'c2', at(1 + minutes(1)))
    const token = tokenOf(link)
    expect(await said(renewByCode({ token, code: first.code }, at(1 + minutes(2))))).toMatch(
      /^link-not-valid/,
    )
    expect(await said(renewByCode({ token, code: second.code }, at(1 + minutes(2))))).toBe('let in')
  })

  it('answers alike to whatever does not fit', async () => {
    const one = await patient()
    const two = await patient()
    const { code } = await issueRenewalCode(nurse, one.patientId, 'c1', at(1))
    const token = tokenOf(one.link)
    const answers = [
      await said(renewByCode({ token, code: other(code) }, at(1))),
      await said(renewByCode({ token: 'nobody-has-this', code }, at(1))),
      await said(renewByCode({ token: tokenOf(two.link), code }, at(1))),
      await said(renewByCode({ token, code }, at(1.25))),
      await said(renewByCode({ token, code: '' }, at(1))),
    ]
    await renewByCode({ token, code }, at(1.1))
    answers.push(await said(renewByCode({ token, code }, at(1.1))))
    const again = await issueRenewalCode(nurse, one.patientId, 'c2', at(2))
    await revokeLinks(nurse, one.patientId, at(2))
    answers.push(await said(renewByCode({ token, code: again.code }, at(2))))
    expect(new Set(answers)).toEqual(
      new Set(['link-not-valid: The code or the link is not valid. Ask your clinic for a new code.']),
    )
  })

  it('is over after five wrong tries, each of which counts', async () => {
    const { patientId, link } = await patient()
    const { code } = await issueRenewalCode(nurse, patientId, 'c1', at(1))
    const token = tokenOf(link)
    for (let i = 0; i < 5; i++) await said(renewByCode({ token, code: other(code) }, at(1)))
    expect(await read((tx) => tx.renewalCode.findFirst())).toMatchObject({ tries: 5 })
    expect(await said(renewByCode({ token, code }, at(1)))).toMatch(/^link-not-valid/)
  })

  it('takes four wrong tries and then the right one', async () => {
    const { patientId, link } = await patient()
    const { code } = await issueRenewalCode(nurse, patientId, 'c1', at(1))
    const token = tokenOf(link)
    for (let i = 0; i < 4; i++) await said(renewByCode({ token, code: other(code) }, at(1)))
    expect(await said(renewByCode({ token, code }, at(1)))).toBe('let in')
  })

  it('is given by the patient’s own clinic alone', async () => {
    const { patientId } = await patient()
    await expect(issueRenewalCode(stranger, patientId, 'c1', at(1))).rejects.toMatchObject({
      kind: 'not-found',
    })
  })
})
