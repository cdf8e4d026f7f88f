import { beforeEach, describe, expect, it } from 'vitest'
import { HandoverSheet, staying } from '../../lib/domain/handover.ts'
import { spanText } from '../../lib/domain/handover-lines.ts'
import type { Refusal } from '../../lib/domain/problem.ts'
import { receiveReport } from '../../lib/intake/index.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { read, write } from '../../lib/store/index.ts'
import { addRuleSet } from '../../lib/store/rule-sets.ts'
import { openHandover, stepHandover } from '../../lib/worklist/handover.ts'
import { recordCallback } from '../../lib/worklist/index.ts'
import { readHandover, readOneHandover } from '../../lib/worklist/read-handover.ts'
import {
  at,
  CLINIC,
  chargeNurse,
  iso,
  nurse,
  openClinics,
  otherNurse,
  patient,
  stranger,
} from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

databasePerTest()
beforeEach(openClinics)

let keys = 0
const key = () => `key-${++keys}`
const refusal = (work: Promise<unknown>): Promise<Refusal> =>
  work.then(
    () => expect.unreachable('it was not refused'),
    (error) => error,
  )

/** A patient who reports chills at that hour: within 1 hour. */
async function chills(hours: number) {
  const enrolled = await patient(hours - 1)
  await say(enrolled, hours, { chills: true })
  return enrolled
}

async function say(
  { patientId, drain }: { patientId: string; drain: string },
  hours: number,
  symptoms: object,
) {
  const body = {
    readings: [{ drain, at: iso(hours), volumeMl: 380, appearance: 'clear' }],
    symptoms: {
      at: iso(hours),
      temperatureC: 36.9,
      chills: false,
      pain: 0,
      general: [],
      drains: [],
      ...symptoms,
    },
  }
  await receiveReport(
    { clinicId: CLINIC, patientId, door: 'check-in', source: 's', by: null, key: key(), body },
    at(hours),
  )
}

const step = (who: typeof nurse, id: string, body: object, hours: number) =>
  stepHandover(who, id, body, key(), at(hours))
const sheetAt = async (hours: number) => (await readHandover(nurse, at(hours))).sheet

describe('the page for the next shift', () => {
  it('names what was tried, what was agreed and what comes due', async () => {
    const ada = await chills(2)
    await recordCallback(nurse, ada.patientId, { outcome: 'no-answer', note: 'rang out' }, key(), at(2.2))
    await recordCallback(otherNurse, ada.patientId, { outcome: 'left-message' }, key(), at(2.4))
    const sheet = await sheetAt(2.5)
    expect(sheet.entries).toHaveLength(1)
    const [entry] = sheet.entries
    expect(entry).toMatchObject({ patientId: ada.patientId, urgency: 'within-1h', needs: true, isNew: false })
    expect(entry?.tried.map(({ by, outcome, note }) => [by, outcome, note])).toEqual([
      ['Ben Invented', 'left-message', ''],
      ['Nora Invented', 'no-answer', 'rang out'],
    ])
    expect(entry?.due).toContainEqual({ at: iso(3), what: 'act-by' })
    expect(entry?.agreed).toBeNull()
    expect(HandoverSheet.parse(sheet)).toEqual(sheet)
  })

  it('names the rule set in force', async () => {
    const set = (id: string, body: string, hours: number) => ({
      ...{ id, clinicId: CLINIC, version: id, body, inForceFrom: iso(hours), recordedAt: iso(hours) },
      ...{ recordedBy: 'test', why: null, draftId: null },
    })
    const own = JSON.stringify({ ...standardRuleSet, version: 'own-2' })
    await write((tx) => addRuleSet(tx, set('own-2', own, 3)))
    expect(spanText(await sheetAt(2.5))).toContain(` Rule set ${standardRuleSet.version}.`)
    expect(spanText(await sheetAt(4))).toContain(' Rule set own-2.')
  })

  it('shows a promised look of somebody who is not on the list now', async () => {
    const ada = await chills(2)
    const [flag] = await read((tx) => tx.flag.findMany({ where: { code: 'infection-signs' } }))
    const call = {
      outcome: 'reached',
      spokenTo: 'patient',
      agreed: ['watch-and-report'],
      closes: [flag?.id],
      lookAgainAt: iso(6),
      note: 'takes her temperature at noon',
    }
    await recordCallback(nurse, ada.patientId, call, key(), at(2.5))
    const sheet = await sheetAt(3)
    expect(sheet.entries.filter(({ needs }) => needs)).toEqual([])
    expect(sheet.coming).toMatchObject([
      { patientId: ada.patientId, due: [{ at: iso(6), what: 'look-again' }] },
    ])
    const back = await sheetAt(20)
    expect(back.coming).toEqual([])
  })
})

describe('handing over', () => {
  it('is accepted row by row by another, signed by both, and frozen', async () => {
    const ada = await chills(2)
    const bea = await chills(2)
    const { handover } = await openHandover(nurse, { note: 'Quiet night.' }, key(), at(2.5))
    await step(otherNurse, handover, { step: 'accept', patientId: ada.patientId }, 2.6)
    expect(await step(otherNurse, handover, { step: 'sign' }, 2.7)).toEqual({ signed: false })
    expect(await step(nurse, handover, { step: 'sign' }, 2.8)).toEqual({ signed: true })

    const signed = await readOneHandover(chargeNurse, handover, 'view', at(9))
    expect(signed.asOf).toBe(iso(2.8))
    expect(signed.handover).toMatchObject({
      note: 'Quiet night.',
      givenBy: { name: 'Nora Invented' },
      givenAt: iso(2.8),
      takenBy: { name: 'Ben Invented' },
      takenAt: iso(2.7),
    })
    expect(signed.entries.find(({ patientId }) => patientId === ada.patientId)?.accepted).toMatchObject({
      by: { name: 'Ben Invented' },
      at: iso(2.6),
    })
    expect(staying(signed.entries).map(({ patientId }) => patientId)).toEqual([bea.patientId])

    await say(ada, 10, {})
    expect(await readOneHandover(chargeNurse, handover, 'view', at(11))).toEqual(signed)
    const { sheet, earlier } = await readHandover(nurse, at(11))
    expect(sheet.handover).toBeNull()
    expect(sheet.from).toBe(iso(2.8))
    expect(earlier).toMatchObject([
      { id: handover, takenBy: 'Ben Invented', signedAt: iso(2.8), accepted: 1 },
    ])
  })

  it('does not let the giver accept, nor one row be accepted by two', async () => {
    const ada = await chills(2)
    const { handover } = await openHandover(nurse, {}, key(), at(2.5))
    const accept = { step: 'accept', patientId: ada.patientId }
    expect((await refusal(step(nurse, handover, accept, 2.6))).detail).toMatch(/somebody else must accept/)
    await step(otherNurse, handover, accept, 2.6)
    await step(otherNurse, handover, accept, 2.6)
    expect((await refusal(step(chargeNurse, handover, accept, 2.7))).detail).toBe(
      'Ben Invented has accepted this row already.',
    )
  })

  it('shows as new what became pressing after it was opened, and asks for its acceptance too', async () => {
    const ada = await chills(2)
    const { handover } = await openHandover(nurse, {}, key(), at(2.5))
    const bea = await chills(2.6)
    const sheet = await sheetAt(2.7)
    const isNew = Object.fromEntries(sheet.entries.map((entry) => [entry.patientId, entry.isNew]))
    expect(isNew).toEqual({ [ada.patientId]: false, [bea.patientId]: true })
    expect(staying(sheet.entries)).toHaveLength(2)

    await step(otherNurse, handover, { step: 'accept', patientId: bea.patientId }, 2.7)
    await say(bea, 2.8, { chills: true, general: ['fainted'] })
    const later = (await sheetAt(2.9)).entries.find(({ patientId }) => patientId === bea.patientId)
    expect(later).toMatchObject({ urgency: 'at-once', newsSince: true })
  })

  it('has one winner when two sign for the same side at once', async () => {
    await chills(2)
    const { handover } = await openHandover(nurse, {}, key(), at(2.5))
    const signed = await Promise.allSettled([
      step(otherNurse, handover, { step: 'sign' }, 2.6),
      step(chargeNurse, handover, { step: 'sign' }, 2.6),
    ])
    expect(signed.map(({ status }) => status).toSorted()).toEqual(['fulfilled', 'rejected'])
    const lost = signed.find((one) => one.status === 'rejected')
    expect(lost?.reason.detail).toMatch(/^(Ben|Cleo) Invented took this handover at 03:36\.$/)
  })

  it('is open once at a time; who gave it or a charge nurse withdraws it, and nothing goes on afterwards', async () => {
    const ada = await chills(2)
    const { handover } = await openHandover(nurse, {}, key(), at(2.5))
    expect((await refusal(openHandover(otherNurse, {}, key(), at(2.6)))).detail).toBe(
      'Nora Invented opened a handover at 03:30; that one comes first.',
    )
    expect((await refusal(step(otherNurse, handover, { step: 'withdraw' }, 2.7))).kind).toBe('conflict')
    expect((await refusal(step(otherNurse, handover, { step: 'note', note: 'x' }, 2.7))).kind).toBe(
      'conflict',
    )
    await step(chargeNurse, handover, { step: 'withdraw' }, 2.7)
    const late = await refusal(step(otherNurse, handover, { step: 'accept', patientId: ada.patientId }, 2.8))
    expect(late.detail).toBe('This handover was withdrawn at 03:42.')
    await openHandover(otherNurse, {}, key(), at(2.9))
  })

  it('refuses what no longer presses, another clinic’s handover, and what is over', async () => {
    const ada = await chills(2)
    const well = await patient(1)
    const { handover } = await openHandover(nurse, {}, key(), at(2.5))
    const accept = (who: typeof nurse, patientId: string) =>
      refusal(step(who, handover, { step: 'accept', patientId }, 2.6))
    expect((await accept(otherNurse, well.patientId)).detail).toMatch(/no longer at once/)
    expect((await accept(stranger, ada.patientId)).kind).toBe('not-found')
    expect((await refusal(step(nurse, handover, { step: 'tear' }, 2.6))).kind).toBe('invalid-input')
    await step(nurse, handover, { step: 'sign' }, 2.6)
    await step(otherNurse, handover, { step: 'sign' }, 2.6)
    expect((await accept(otherNurse, ada.patientId)).detail).toBe(
      'This handover is signed by both: Ben Invented took it at 03:36.',
    )
    expect((await refusal(readOneHandover(stranger, handover, 'view', at(3)))).kind).toBe('not-found')
  })

  it('stores a step once, however often it is sent', async () => {
    const sent = key()
    const first = await openHandover(nurse, { note: 'a' }, sent, at(2))
    expect(await openHandover(nurse, { note: 'a' }, sent, at(2.1))).toEqual(first)
    expect((await refusal(openHandover(nurse, { note: 'b' }, sent, at(2.1)))).kind).toBe('key-reused')
  })
})
