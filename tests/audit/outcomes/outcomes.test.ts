import { beforeEach, describe, expect, it } from 'vitest'
import {
  answerInquiry,
  readOutcomePatient,
  readOutcomes,
  recordOutsideEvent,
  withdrawOutsideEvent,
} from '../../../lib/audit/outcomes/index.ts'
import { OutcomesPage } from '../../../lib/domain/outcomes-page.ts'
import { endFollowUp, receiveReport, resumeFollowUp } from '../../../lib/intake/index.ts'
import { answersOf } from '../../../lib/store/audit-facts.ts'
import { read } from '../../../lib/store/index.ts'
import { recordStaffEvent } from '../../../lib/worklist/index.ts'
import { at, CLINIC, iso, nurse, openClinics, patient, stranger } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { key, refusal } from '../week/place.ts'

databasePerTest()
beforeEach(openClinics)

const MONTH = 30 * 24
const due = async (hours: number) =>
  (await readOutcomes(nurse, at(hours))).due.map(({ patientId, about, since }) => ({
    patientId,
    about,
    since,
  }))
const record = (patientId: string, body: object, hours = 100, by = nurse) =>
  recordOutsideEvent(by, patientId, body, key(), at(hours))
const answer = (patientId: string, body: object, hours: number, by = nurse) =>
  answerInquiry(by, patientId, body, key(), at(hours))
const endsAt = async ({ patientId, drain }: { patientId: string; drain: string }, hours: number) => {
  await recordStaffEvent(nurse, patientId, { at: iso(hours), drain, type: 'removed' }, key(), at(hours))
  await endFollowUp(nurse, patientId, { reason: 'removed' }, key(), at(hours))
}

describe('what became of a patient', () => {
  it('is asked of everybody 30 days after enrolment and at the end, until it is answered', async () => {
    const ada = await patient(0)
    const bea = await patient(24)
    await endsAt(bea, 48)
    expect(await due(MONTH - 0.1)).toEqual([{ patientId: bea.patientId, about: 'end', since: iso(48) }])
    expect(await due(MONTH + 24)).toEqual([
      { patientId: bea.patientId, about: 'end', since: iso(48) },
      { patientId: ada.patientId, about: '30-days', since: iso(MONTH) },
      { patientId: bea.patientId, about: '30-days', since: iso(MONTH + 24) },
    ])
    await answer(bea.patientId, { about: 'end', answer: 'none' }, MONTH + 24)
    await answer(ada.patientId, { about: '30-days', answer: 'unknown', note: 'No one answers.' }, MONTH + 24)
    expect(await due(MONTH + 24)).toMatchObject([{ patientId: bea.patientId, about: '30-days' }])
    const { answered } = OutcomesPage.parse(await readOutcomes(nurse, at(MONTH + 24)))
    expect(answered.toSorted((a, b) => a.answer.localeCompare(b.answer))).toEqual([
      { answer: 'none', n: 1 },
      { answer: 'unknown', n: 1 },
    ])
  })

  it('is asked again where follow-up went on and ended anew', async () => {
    const ada = await patient(0)
    await endsAt(ada, 48)
    await answer(ada.patientId, { about: 'end', answer: 'none' }, 50)
    expect(await due(51)).toEqual([])
    await resumeFollowUp(nurse, ada.patientId, { why: 'it goes on' }, key(), at(60))
    expect(await due(61)).toEqual([])
    await endFollowUp(nurse, ada.patientId, { reason: 'removed' }, key(), at(70))
    expect(await due(71)).toMatchObject([{ about: 'end', since: iso(70) }])
  })

  it('is answered with its events in one step, or with those on record', async () => {
    const ada = await patient(0)
    const events = [
      { kind: 'emergency-visit', at: iso(90), drain: ada.drain, note: 'blocked, flushed there' },
      { kind: 'obstruction', at: iso(91), drain: ada.drain },
    ]
    const none = await refusal(answer(ada.patientId, { about: '30-days', answer: 'events' }, MONTH))
    expect(none.detail).toMatch(/name at least one/)
    const saved = await answer(ada.patientId, { about: '30-days', answer: 'events', events }, MONTH)
    expect(saved.events).toHaveLength(2)
    expect(
      (await refusal(answer(ada.patientId, { about: '30-days', answer: 'none' }, MONTH))).detail,
    ).toMatch(/2 events are on record/)
    await answer(ada.patientId, { about: '30-days', answer: 'events', note: 'checked' }, MONTH + 1)
    expect((await readOutcomes(nurse, at(MONTH + 1))).answered).toEqual([{ answer: 'events', n: 1 }])
  })

  it('leaves nothing behind where one of its events is at fault', async () => {
    const ada = await patient(0)
    const events = [
      { kind: 'admission', at: iso(90) },
      { kind: 'infection', at: iso(-1) },
    ]
    const refused = await refusal(
      answer(ada.patientId, { about: '30-days', answer: 'events', events }, MONTH),
    )
    expect(refused.faults).toMatchObject([
      { field: 'events[1].at', value: iso(-1), message: `is before enrolment; accepted: ${iso(0)} or later` },
    ])
    expect(await read((tx) => tx.outsideEvent.count())).toBe(0)
    expect(await read((tx) => tx.inquiryAnswer.count())).toBe(0)
  })

  it('is not answered before it is asked, nor for another clinic’s patient', async () => {
    const ada = await patient(0)
    expect((await refusal(answer(ada.patientId, { about: '30-days', answer: 'none' }, 100))).kind).toBe(
      'conflict',
    )
    expect((await refusal(answer(ada.patientId, { about: 'end', answer: 'none' }, 100))).detail).toMatch(
      /not ended/,
    )
    expect((await refusal(answer(ada.patientId, { about: 'end', answer: 'none' }, 100, stranger))).kind).toBe(
      'not-found',
    )
    expect((await refusal(readOutcomePatient(stranger, ada.patientId, at(100)))).kind).toBe('not-found')
    expect(
      (await refusal(answer(ada.patientId, { about: 'then', answer: 'none' }, MONTH))).faults[0],
    ).toMatchObject({
      field: 'about',
      message: 'accepted: 30-days, end',
    })
  })
})

describe('an outside event', () => {
  it('is recorded at any time, and refused before enrolment, in the future, or of another’s drain', async () => {
    const ada = await patient(0)
    const bea = await patient(0)
    await record(ada.patientId, { kind: 'exchange', at: iso(50), drain: ada.drain })
    const faultOf = async (body: object) => (await refusal(record(ada.patientId, body))).faults[0]
    expect(await faultOf({ kind: 'exchange', at: iso(-5) })).toMatchObject({
      field: 'at',
      value: iso(-5),
      message: `is before enrolment; accepted: ${iso(0)} or later`,
    })
    expect(await faultOf({ kind: 'exchange', at: iso(200) })).toMatchObject({ field: 'at' })
    expect(await faultOf({ kind: 'exchange', at: iso(60), drain: bea.drain })).toMatchObject({
      field: 'drain',
    })
    expect(await faultOf({ kind: 'surgery', at: iso(60) })).toMatchObject({ field: 'kind', value: 'surgery' })
    expect(
      (await refusal(record(ada.patientId, { kind: 'exchange', at: iso(50), drain: ada.drain }))).kind,
    ).toBe('conflict')
    expect((await refusal(record(ada.patientId, { kind: 'leak', at: iso(50) }, 100, stranger))).kind).toBe(
      'not-found',
    )
  })

  it('is withdrawn for a reason, stays readable, and no longer counts', async () => {
    const ada = await patient(0)
    const { events } = await record(ada.patientId, { kind: 'admission', at: iso(50), note: 'for pain' })
    const [id = ''] = events
    const withdraw = (body: object) => withdrawOutsideEvent(nurse, ada.patientId, id, body, key(), at(101))
    expect((await refusal(withdraw({ why: ' ' }))).faults[0]?.field).toBe('why')
    await withdraw({ why: 'it was somebody else' })
    expect((await refusal(withdraw({ why: 'again' }))).kind).toBe('conflict')
    const shown = (await readOutcomePatient(nurse, ada.patientId, at(102))).events
    expect(shown).toMatchObject([
      {
        ...{ id, withdrawnAt: iso(101), withdrawnBy: nurse.id },
        ...{ note: 'for pain', withdrawnWhy: 'it was somebody else' },
      },
    ])
    expect((await readOutcomes(nurse, at(102))).events[0]?.event.withdrawnBy).toBe(nurse.name)
    await answer(ada.patientId, { about: '30-days', answer: 'none' }, MONTH)
  })

  it('that alone answered a question leaves it to be asked again, and no figure takes that for none', async () => {
    const ada = await patient(0)
    const told = { about: '30-days', answer: 'events', events: [{ kind: 'admission', at: iso(50) }] }
    const { events } = await answer(ada.patientId, told, MONTH)
    // One after the first 30 days answers nothing of them.
    await record(ada.patientId, { kind: 'leak', at: iso(MONTH + 1) }, MONTH + 2)
    expect(await due(MONTH + 2)).toEqual([])
    const span = { clinicId: CLINIC, from: iso(0), until: iso(MONTH + 9), now: iso(MONTH + 9) }
    const counted = async () => (await read((tx) => answersOf(tx, span))).rows.map((one) => one.answer)
    expect(await counted()).toEqual(['events'])
    const why = { why: 'it was somebody else' }
    await withdrawOutsideEvent(nurse, ada.patientId, events[0] ?? '', why, key(), at(MONTH + 3))
    expect(await due(MONTH + 4)).toMatchObject([{ patientId: ada.patientId, about: '30-days' }])
    expect((await readOutcomes(nurse, at(MONTH + 4))).answered).toEqual([])
    expect(await counted()).toEqual([])
    await answer(ada.patientId, { about: '30-days', answer: 'none' }, MONTH + 5)
    expect(await due(MONTH + 6)).toEqual([])
    expect(await counted()).toEqual(['none'])
  })

  it('stands beside the flag that found it and how far ahead, or as missed', async () => {
    const ada = await patient(0)
    const body = {
      symptoms: { at: iso(40), temperatureC: 38.6, chills: true, pain: 0, general: [], drains: [] },
    }
    await receiveReport(
      {
        clinicId: CLINIC,
        patientId: ada.patientId,
        door: 'check-in',
        source: 's',
        by: null,
        key: key(),
        body,
      },
      at(40),
    )
    await record(ada.patientId, { kind: 'infection', at: iso(50) })
    const bea = await patient(0)
    await record(bea.patientId, { kind: 'bleeding', at: iso(60) })
    const { events } = await readOutcomes(nurse, at(101))
    const of = (id: string) => events.find(({ patientId }) => patientId === id)
    expect(of(ada.patientId)).toMatchObject({
      found: 'Signs of infection',
      match: { hoursAhead: 10, hoursSinceHeard: 10 },
    })
    expect(of(bea.patientId)).toMatchObject({ found: null, match: { flagId: null, hoursAhead: null } })
  })
})
