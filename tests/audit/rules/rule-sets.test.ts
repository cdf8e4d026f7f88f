import { beforeEach, describe, expect, it } from 'vitest'
import { ruleSetAt } from '../../../lib/assessment/rule-set.ts'
import {
  goBack,
  readBeginning,
  readDraft,
  readRules,
  stepDraft,
  writeDraft,
} from '../../../lib/audit/rules/index.ts'
import { receiveReport } from '../../../lib/intake/index.ts'
import { read, write } from '../../../lib/store/index.ts'
import { readPatientPage, readWorklist, sweep } from '../../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, wellReport } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { ada, ben, cara, elsewhere, employ } from './house.ts'

databasePerTest()
beforeEach(openClinics)

let keys = 0
const key = () => `rules-${++keys}`
const LOWER_FEVER = { values: { feverC: 37.8 }, reason: 'Two infections were called late' }

const draftBy = (who = ada, hours = 1, wanted: unknown = LOWER_FEVER) =>
  writeDraft(who, wanted, key(), at(hours))

/** Takes a step on the draft as it stands. */
async function step(who: typeof ada, id: string, wanted: object, hours: number) {
  const { hash } = await readDraft(ada, id, at(hours))
  return stepDraft(who, id, { seen: hash, ...wanted }, key(), at(hours))
}
const propose = (who: typeof ada, id: string, hours: number) =>
  step(who, id, { step: 'propose', withoutReplay: 'A new clinic: no history' }, hours)

/** A draft in force, agreed by two. */
async function inForce(hours: number, wanted: unknown = LOWER_FEVER, from?: string) {
  const { draft, version } = await draftBy(ada, hours, wanted)
  await propose(ada, draft, hours)
  await step(ben, draft, { step: 'approve' }, hours)
  await step(ada, draft, { step: 'put-in-force', ...(from ? { from } : {}) }, hours)
  return { draft, version }
}

const rulesAt = (hours: number) => read((tx) => ruleSetAt(tx, CLINIC, at(hours)))
const feverAt = async (hours: number) => (await rulesAt(hours)).thresholds.feverC?.value

describe('a draft', () => {
  beforeEach(() => employ(ada, ben, cara, elsewhere))

  it('is refused out of range, with the range and its source', async () => {
    await expect(draftBy(ada, 1, { values: { feverC: 41 }, reason: 'Quiet' })).rejects.toMatchObject({
      kind: 'invalid-input',
      faults: [
        {
          field: 'values.feverC',
          value: 41,
          message: expect.stringMatching(/^accepted: 37\.5 to 39 °C\. Source: .*theii\.org/),
        },
      ],
    })
  })

  it('is refused where it changes nothing, names no threshold, or turns two tiers round', async () => {
    await expect(draftBy(ada, 1, { values: { feverC: 38 }, reason: 'Same' })).rejects.toThrow(
      /changes nothing/,
    )
    await expect(draftBy(ada, 1, { values: {}, reason: 'Nothing' })).rejects.toThrow(/changes nothing/)
    await expect(draftBy(ada, 1, { values: { fever: 38.5 }, reason: 'Typo' })).rejects.toMatchObject({
      faults: [{ field: 'values.fever', message: 'is not a threshold' }],
    })
    await expect(draftBy(ada, 1, { values: { pleuralHighMl: 2000 }, reason: 'More' })).rejects.toMatchObject({
      faults: [
        { field: 'values.pleuralHighMl', message: 'accepted: at most pleuralVeryHighMl, which is 1500' },
      ],
    })
    await expect(draftBy(ada, 1, { values: { feverC: '38.5' }, reason: ' ' })).rejects.toMatchObject({
      faults: [{ field: 'values.feverC' }, { field: 'reason' }],
    })
  })

  it('says of a changed value that the clinic set it, not the source of the shipped one', async () => {
    const { draft } = await draftBy()
    const page = await readDraft(ada, draft, at(2))
    expect(page.changes).toEqual([{ name: 'feverC', unit: '°C', base: 38, inForce: 38, value: 37.8 }])
    await propose(ada, draft, 2)
    await step(ben, draft, { step: 'approve' }, 2)
    await step(ben, draft, { step: 'put-in-force' }, 3)
    expect((await rulesAt(3)).thresholds.feverC).toMatchObject({
      value: 37.8,
      confidence: 'local choice',
      source: expect.stringMatching(
        /^Set by the clinic: Two infections were called late\. The shipped value is 38 °C/,
      ),
    })
  })

  it('is proposed with a replay or with a reason why there is none', async () => {
    const { draft } = await draftBy()
    await expect(step(ada, draft, { step: 'propose' }, 2)).rejects.toMatchObject({
      faults: [{ field: 'withoutReplay' }],
    })
    const body = await read((tx) => tx.ruleDraft.findUniqueOrThrow({ where: { id: draft } }))
    const replay = (id: string, rules: string) => ({
      id,
      clinicId: CLINIC,
      draftId: draft,
      body: rules,
      from: '2026-02-01',
      until: '2026-03-01',
      state: 'done',
      recordedAt: iso(1),
      recordedBy: ada.id,
      result: JSON.stringify({ whole: { flags: { inForce: 9, draft: 11, gained: 3, lost: 1 } } }),
    })
    const other = JSON.stringify({ ...JSON.parse(body.body), thresholds: {} })
    await write((tx) => tx.replay.create({ data: replay('other-values', other) }))
    await expect(step(ada, draft, { step: 'propose' }, 2)).rejects.toThrow(/No replay of these values/)
    await write((tx) => tx.replay.create({ data: replay('these-values', body.body) }))
    await step(ada, draft, { step: 'propose' }, 2)
    const page = await readDraft(ada, draft, at(2))
    expect(page.steps.at(-1)).toMatchObject({ step: 'proposed', replay: 'these-values', why: null })
    expect(page.replays).toMatchObject([
      { id: 'other-values', isOfThis: false },
      { id: 'these-values', isOfThis: true, gained: 3, lost: 1 },
    ])
  })

  it('takes two people: a second approval by the first is refused with who it was', async () => {
    const { draft } = await draftBy()
    await expect(step(ben, draft, { step: 'approve' }, 2)).rejects.toThrow('It has not been proposed yet.')
    await propose(ada, draft, 2)
    await expect(step(ada, draft, { step: 'approve' }, 3)).rejects.toThrow(
      /^Dr Ada \(invented\) \(Mon 2 Mar, 03:00\) proposed it: two approvals by one person.*Dr Ben \(invented\), Dr Cara/,
    )
    await expect(step(ada, draft, { step: 'look-again' }, 48)).rejects.toThrow(/Dr Ben \(invented\), Dr Cara/)
    await expect(step(ada, draft, { step: 'put-in-force' }, 3)).rejects.toThrow(
      'It has not been approved yet.',
    )
    await step(ben, draft, { step: 'approve' }, 3)
    await expect(step(ben, draft, { step: 'approve' }, 4)).rejects.toThrow(
      /^Dr Ben \(invented\) .* approved it already/,
    )
  })

  it('of two approvals at once keeps one, and answers a repeat of a key with the first answer', async () => {
    const { draft } = await draftBy()
    await propose(ada, draft, 2)
    const { hash } = await readDraft(ada, draft, at(2))
    const approve = (who: typeof ada, by: string) =>
      stepDraft(who, draft, { step: 'approve', seen: hash }, by, at(3))
    const answers = await Promise.allSettled([approve(ben, 'b'), approve(cara, 'c'), approve(ben, 'b')])
    expect(answers.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled'])
    const { steps } = await readDraft(ada, draft, at(3))
    expect(steps.filter(({ step: kind }) => kind === 'approved')).toMatchObject([{ by: ben.name }])
  })

  it('loses its proposal and its approval with a change, and is not approved unseen', async () => {
    const { draft } = await draftBy()
    await propose(ada, draft, 2)
    const seen = (await readDraft(ben, draft, at(2))).hash
    await step(cara, draft, { step: 'change', values: { feverC: 37.6 }, reason: 'Lower still' }, 3)
    await propose(cara, draft, 3)
    await expect(stepDraft(ben, draft, { step: 'approve', seen }, key(), at(4))).rejects.toThrow(
      /changed since/,
    )
    await step(ada, draft, { step: 'approve' }, 4)
    await step(ada, draft, { step: 'change', values: { feverC: 37.7 }, reason: 'A middle' }, 5)
    expect(await readDraft(ada, draft, at(5))).toMatchObject({ state: 'written', proposedBy: null })
    await expect(
      step(ada, draft, { step: 'change', values: { feverC: 37.7 }, reason: 'A middle' }, 6),
    ).rejects.toThrow('This changes nothing of the draft.')
  })

  it('is seen by its own clinic alone', async () => {
    const { draft } = await draftBy()
    await expect(readDraft(elsewhere, draft, at(2))).rejects.toMatchObject({ kind: 'not-found' })
    await expect(
      stepDraft(elsewhere, draft, { step: 'approve', seen: 'x' }, key(), at(2)),
    ).rejects.toMatchObject({ kind: 'not-found' })
    expect((await readRules(elsewhere, at(2))).drafts).toEqual([])
  })

  it('ends when it is withdrawn', async () => {
    const { draft } = await draftBy()
    await step(ben, draft, { step: 'withdraw', why: 'Not now' }, 2)
    await expect(propose(ada, draft, 3)).rejects.toThrow('2026.1/2 was withdrawn.')
    expect(await draftBy(ada, 4)).toMatchObject({ version: '2026.1/3' })
  })
})

describe('alone in a clinic', () => {
  beforeEach(() => employ(ada))

  it('a day and a second look take the second person’s place', async () => {
    const { draft } = await draftBy()
    await propose(ada, draft, 2)
    await expect(step(ada, draft, { step: 'approve' }, 3)).rejects.toThrow(/from Tue 3 Mar, 03:00 on/)
    await expect(step(ada, draft, { step: 'look-again' }, 25.9)).rejects.toThrow(/24 h after the proposal/)
    await step(ada, draft, { step: 'look-again' }, 26)
    await step(ada, draft, { step: 'put-in-force' }, 26)
    expect(await feverAt(26)).toBe(37.8)
  })

  it('no longer holds once somebody else could approve', async () => {
    const { draft } = await draftBy()
    await propose(ada, draft, 2)
    await employ(ben)
    await expect(step(ada, draft, { step: 'look-again' }, 27)).rejects.toThrow(
      /Dr Ben \(invented\) can approve it/,
    )
    await step(ben, draft, { step: 'approve' }, 27)
  })
})

describe('coming into force', () => {
  beforeEach(() => employ(ada, ben))

  it('is never in the past, and at most 90 days ahead', async () => {
    const { draft } = await draftBy()
    await propose(ada, draft, 2)
    await step(ben, draft, { step: 'approve' }, 2)
    const from = (hours: number) => step(ada, draft, { step: 'put-in-force', from: iso(hours) }, 10)
    await expect(from(9)).rejects.toMatchObject({ faults: [{ field: 'from', value: iso(9) }] })
    await expect(from(10 + 91 * 24)).rejects.toMatchObject({ faults: [{ field: 'from' }] })
    await expect(step(ada, draft, { step: 'put-in-force', from: 'tomorrow' }, 10)).rejects.toMatchObject({
      kind: 'invalid-input',
    })
    await from(20)
    expect([await feverAt(19.9), await feverAt(20)]).toEqual([38, 37.8])
  })

  it('of two drafts at one moment takes one; the other must be looked at again on that', async () => {
    const one = await draftBy(ada, 1, LOWER_FEVER)
    const two = await draftBy(ben, 1, { values: { severePain: 6, feverC: 37.9 }, reason: 'Pain came late' })
    await propose(ada, one.draft, 2)
    await propose(ben, two.draft, 2)
    await step(ben, one.draft, { step: 'approve' }, 3)
    await step(ada, two.draft, { step: 'approve' }, 3)
    const pressed = await Promise.allSettled(
      [one, two].map(({ draft }) => step(ada, draft, { step: 'put-in-force', from: iso(30) }, 4)),
    )
    expect(pressed.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    const [won, lost] = pressed[0]?.status === 'fulfilled' ? [one, two] : [two, one]
    expect(pressed.find((one) => one.status === 'rejected')).toMatchObject({
      reason: { kind: 'conflict', message: expect.stringContaining(`${won.version} stands now`) },
    })
    const { drafts } = await readRules(ada, at(5))
    expect(drafts.find(({ id }) => id === lost.draft)).toMatchObject({ isStale: true })

    expect(await step(ada, lost.draft, { step: 'rebase' }, 6)).toEqual({ state: 'written' })
    const page = await readDraft(ada, lost.draft, at(6))
    expect(page).toMatchObject({ isStale: false, writtenOn: won.version, proposedBy: null })
    await propose(ada, lost.draft, 7)
    await step(ben, lost.draft, { step: 'approve' }, 7)
    // Before the set that waits, it would be undone by that one.
    await expect(step(ada, lost.draft, { step: 'put-in-force', from: iso(30) }, 8)).rejects.toThrow(
      /comes into force then or later/,
    )
    await step(ada, lost.draft, { step: 'put-in-force', from: iso(40) }, 8)
    expect((await rulesAt(40)).version).toBe(lost.version)
  })

  it('shows the three values where both changed the same threshold, and what the other changed besides', async () => {
    const { draft } = await draftBy(ada, 1, { values: { feverC: 37.6 }, reason: 'Lower' })
    await inForce(2, { values: { feverC: 38.4, severePain: 6 }, reason: 'Noise' })
    const stale = await readDraft(ada, draft, at(3))
    expect(stale.isStale).toBe(true)
    expect(stale.changes).toEqual([
      { name: 'feverC', unit: '°C', base: 38, inForce: 38.4, value: 37.6 },
      { name: 'severePain', unit: 'of 10', base: 7, inForce: 6, value: 7 },
    ])
    await step(ada, draft, { step: 'rebase' }, 4)
    expect((await readDraft(ada, draft, at(4))).changes).toEqual([
      { name: 'feverC', unit: '°C', base: 38.4, inForce: 38.4, value: 37.6 },
    ])
  })

  it('assesses every patient anew by the sweep, and each flag says under which set it was opened', async () => {
    const warm = await patient(0)
    const ended = await patient(0)
    const send = (patientId: string, drain: string, hours: number, temperatureC: number) => {
      const report = wellReport(drain, hours)
      const symptoms = { ...report.symptoms, temperatureC }
      const body = { ...report, symptoms }
      const by = { clinicId: CLINIC, patientId, door: 'check-in' as const, source: patientId, by: null }
      return receiveReport({ ...by, key: `s${hours}`, body }, at(hours))
    }
    await send(warm.patientId, warm.drain, 20, 37.9)
    await send(ended.patientId, ended.drain, 20, 37.9)
    await write((tx) =>
      tx.patient.update({ where: { id: ended.patientId }, data: { followUpEndedAt: iso(21) } }),
    )
    await write((tx) =>
      tx.patientState.update({ where: { patientId: ended.patientId }, data: { nextCheckAt: null } }),
    )
    expect((await readWorklist(nurse, at(21))).rows).toEqual([])
    await inForce(22, LOWER_FEVER, iso(30))

    // What is assessed between must not forget the moment.
    await send(warm.patientId, warm.drain, 25, 37.9)
    const next = await read((tx) => tx.patientState.findMany({ orderBy: { patientId: 'asc' } }))
    expect(next.find((row) => row.patientId === warm.patientId)?.nextCheckAt).toBe(iso(30))
    expect(next.find((row) => row.patientId === ended.patientId)?.nextCheckAt).toBeNull()
    await sweep(at(29.9))
    expect((await readWorklist(nurse, at(29.9))).rows).toEqual([])
    expect(await sweep(at(30))).toMatchObject({ assessed: 1, failed: 0 })
    const { flags } = await readPatientPage(nurse, warm.patientId, at(30))
    expect(flags).toMatchObject([{ code: 'infection-signs', ruleSet: '2026.1/2' }])
    expect(flags[0]?.finding.threshold).toMatchObject({ value: 37.8, confidence: 'local choice' })

    await goBack(ben, { set: 'shipped', why: 'Too many calls' }, key(), at(31))
    await sweep(at(31))
    expect((await readPatientPage(nurse, warm.patientId, at(31))).flags).toMatchObject([
      { code: 'infection-signs', ruleSet: '2026.1/2', state: 'owed' },
    ])
    await send(warm.patientId, warm.drain, 32, 38.5)
    expect((await readPatientPage(nurse, warm.patientId, at(32))).flags[0]).toMatchObject({
      ruleSet: '2026.1/2',
      state: 'open',
    })
  })

  it('makes everybody due at once where it is now', async () => {
    const some = [await patient(0), await patient(0), await patient(0)]
    await inForce(1)
    expect(await sweep(at(1))).toMatchObject({ assessed: some.length })
    expect(await read((tx) => tx.patientState.findMany({ select: { ruleSet: true } }))).toEqual(
      some.map(() => ({ ruleSet: '2026.1/2' })),
    )
  })
})

describe('the list of rule sets', () => {
  beforeEach(() => employ(ada, ben))

  it('begins with the set that ships, and keeps each with its hash, its time, who and why', async () => {
    const first = await readRules(ada, at(0))
    expect(first.sets).toMatchObject([
      {
        id: 'shipped',
        version: '2026.1',
        state: 'in-force',
        from: null,
        by: null,
        changes: [],
        canReturn: false,
      },
    ])
    await inForce(1)
    await inForce(2, { values: { severePain: 6 }, reason: 'Pain' }, iso(50))
    const { sets } = await readRules(ada, at(3))
    expect(sets).toMatchObject([
      { version: '2026.1/3', state: 'waiting', from: iso(50), until: null, canReturn: false, why: 'Pain' },
      { version: '2026.1/2', state: 'in-force', from: iso(1), until: iso(50), canReturn: true, by: ada.name },
      { version: '2026.1', state: 'earlier', from: null, until: iso(1), canReturn: true },
    ])
    expect(new Set(sets.map(({ hash }) => hash)).size).toBe(3)
    expect(sets[2]?.hash).toBe(first.sets[0]?.hash)
    expect(sets[0]?.changes.map(({ name }) => name)).toEqual(['feverC', 'severePain'])
    expect((await readBeginning(ada, at(3))).base).toMatchObject({ version: '2026.1/3', from: iso(50) })
  })

  it('goes back in one step, by one person, and takes back what waits', async () => {
    await inForce(1)
    await inForce(2, { values: { severePain: 6 }, reason: 'Pain' }, iso(50))
    const [waiting, standing] = (await readRules(ada, at(3))).sets
    await expect(goBack(ada, { set: waiting?.id, why: 'x' }, key(), at(3))).rejects.toThrow(
      /has not been in force/,
    )
    await expect(goBack(ada, { set: 'none', why: 'x' }, key(), at(3))).rejects.toMatchObject({
      kind: 'not-found',
    })
    await expect(goBack(ada, { set: 'shipped', why: '' }, key(), at(3))).rejects.toMatchObject({
      faults: [{ field: 'why' }],
    })

    // The one that waits is taken back; what is in force stays.
    await goBack(ada, { set: standing?.id, why: 'Not now' }, key(), at(4))
    expect((await rulesAt(60)).version).toBe('2026.1/2')
    const after = (await readRules(ada, at(5))).sets
    expect(after.map(({ version, state }) => [version, state])).toEqual([
      ['2026.1/3', 'passed-over'],
      ['2026.1/2', 'in-force'],
      ['2026.1', 'earlier'],
    ])

    expect(after[0]?.takenBack).toEqual({ by: ada.name, at: iso(4), why: 'Not now' })

    expect(await goBack(ben, { set: 'shipped', why: 'Too many calls' }, key(), at(6))).toEqual({
      version: '2026.1',
    })
    expect([(await rulesAt(5)).version, (await rulesAt(6)).version, (await rulesAt(60)).version]).toEqual([
      '2026.1/2',
      '2026.1',
      '2026.1',
    ])
    await expect(goBack(ben, { set: 'shipped', why: 'Again' }, key(), at(7))).rejects.toThrow(
      /in force already/,
    )
    // There and back again, as often as it takes.
    await goBack(ada, { set: standing?.id, why: 'Missed one' }, key(), at(8))
    await goBack(ada, { set: 'shipped', why: 'Enough' }, key(), at(9))
    expect((await rulesAt(9)).version).toBe('2026.1')
  })

  it('lets no moment of a set that was taken back undo what came after', async () => {
    await inForce(1, LOWER_FEVER, iso(50))
    await goBack(ada, { set: 'shipped', why: 'Not now' }, key(), at(2))
    const { version } = await inForce(3, { values: { severePain: 6 }, reason: 'Pain' }, iso(20))
    expect([(await rulesAt(19)).version, (await rulesAt(20)).version, (await rulesAt(50)).version]).toEqual([
      '2026.1',
      version,
      version,
    ])
    expect((await readRules(ada, at(60))).sets.map((one) => [one.version, one.state])).toEqual([
      ['2026.1/2', 'passed-over'],
      [version, 'in-force'],
      ['2026.1', 'earlier'],
    ])
  })

  it('of two who go back at one moment lets one', async () => {
    await inForce(1)
    const back = (who: typeof ada) => goBack(who, { set: 'shipped', why: 'Harm' }, key(), at(2))
    const both = await Promise.allSettled([back(ada), back(ben)])
    expect(both.map(({ status }) => status)).toEqual(['fulfilled', 'rejected'])
  })

  it('names a set that cannot be read, and goes on', async () => {
    await write((tx) =>
      tx.ruleSet.create({
        data: {
          ...{ id: 'bad', clinicId: CLINIC, version: 'bad', body: '{"version":', inForceFrom: iso(90) },
          ...{ recordedAt: iso(0), recordedBy: ada.id },
        },
      }),
    )
    const page = await readRules(ada, at(1))
    expect(page.sets).toHaveLength(1)
    expect(page.unreadable).toEqual(['rule set bad: its body cannot be read'])
  })
})
