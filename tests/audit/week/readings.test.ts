import { beforeEach, describe, expect, it } from 'vitest'
import {
  openItem,
  readItem,
  readWeek,
  readWeeks,
  saveReview,
  verdictsOnMyCalls,
} from '../../../lib/audit/week/index.ts'
import { read, write } from '../../../lib/store/index.ts'
import { readPatientPage, readWorklist, recordCallback, sweep } from '../../../lib/worklist/index.ts'
import { at, iso, nurse, openClinics, otherNurse, patient, wellReport } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { eva, hire, judge, key, OVER, pia, refusal, send, shiveringPatient, tom, WEEK } from './place.ts'

databasePerTest()
beforeEach(async () => {
  await openClinics()
  await hire(pia)
})

/** Draws the week of one who shivers and gives the item of that flag, read twice or once as wanted. */
async function flagItem(twice: boolean) {
  const ill = await shiveringPatient()
  await readWeek(pia, WEEK, at(OVER))
  const item = await read((tx) => tx.reviewItem.findFirstOrThrow({ where: { stratum: 'within-1h' } }))
  await write((tx) => tx.reviewItem.update({ where: { id: item.id }, data: { twice } }))
  return { ...ill, item: item.id, flagId: item.flagId ?? '' }
}
const lineOf = async (staff: typeof pia, item: string, hours: number) =>
  (await readWeek(staff, WEEK, at(hours))).items.find(({ id }) => id === item)
const WEEKS_LATER = OVER + 15 * 24

describe('a verdict', () => {
  it('is changed by another one; both are kept, and it says whether what happened had been opened', async () => {
    const { item } = await flagItem(false)
    expect(await judge(pia, item, 1, 'not-warranted', OVER)).toMatchObject({ isOpened: false })
    expect(await judge(pia, item, 1, 'cannot-tell', OVER)).toMatchObject({ isOpened: false })
    await openItem(pia, item, key(), at(OVER))
    expect(
      await judge(pia, item, 1, 'warranted', OVER, { truly: 'infection', note: 'Seen later.' }),
    ).toMatchObject({
      isOpened: true,
    })
    const { own, task, reading, completeFrom } = await readItem(pia, item, at(OVER))
    expect(completeFrom).toBe(0.9)
    expect(own.map(({ verdict, isOpened }) => [verdict, isOpened])).toEqual([
      ['not-warranted', false],
      ['cannot-tell', false],
      ['warranted', true],
    ])
    expect({ task, reading }).toEqual({ task: 'none', reading: 1 })
    expect(await lineOf(pia, item, OVER)).toMatchObject({
      own: 'warranted',
      counts: 'warranted',
      task: 'none',
    })
  })

  it('is refused from another person once it is given, and where it says what cannot be', async () => {
    await hire(tom)
    const { item } = await flagItem(false)
    await judge(pia, item, 1, 'warranted', OVER)
    expect((await refusal(judge(tom, item, 1, 'warranted', OVER))).detail).toMatch(/Somebody else/)
    expect((await refusal(judge(tom, item, 2, 'warranted', OVER))).detail).toBe('This item is read once.')
    expect((await refusal(judge(pia, item, 1, 'maybe', OVER))).faults[0]).toMatchObject({
      field: 'verdict',
      value: 'maybe',
      message: 'accepted: warranted, warranted-late, not-warranted, cannot-tell',
    })
    expect((await refusal(judge(pia, item, 4, 'warranted', OVER))).faults[0]?.field).toBe('reading')
    const [misfit] = (await refusal(judge(pia, item, 1, 'warranted', OVER, { truly: 'recurrence' }))).faults
    expect(misfit).toMatchObject({ field: 'truly', value: 'recurrence' })
    expect((await refusal(judge(pia, 'nothing', 1, 'warranted', OVER))).kind).toBe('not-found')
    // Before the week was over no verdict can have been given.
    expect((await refusal(judge(pia, item, 1, 'warranted', 100))).detail).toMatch(/is not over/)
  })

  it('is stored once, however often it is sent', async () => {
    const { item } = await flagItem(false)
    const body = { item, reading: 1, verdict: 'warranted', harm: 'unknown' }
    const first = await saveReview(pia, body, 'same', at(OVER))
    expect(await saveReview(pia, body, 'same', at(OVER + 1))).toEqual(first)
    expect(await read((tx) => tx.review.count())).toBe(1)
    const other = { ...body, verdict: 'not-warranted' }
    expect((await refusal(saveReview(pia, other, 'same', at(OVER + 1)))).kind).toBe('key-reused')
  })

  it('on a flag that had ended by itself counts, and what happened says that it had', async () => {
    const { patientId, drain } = await patient(0)
    await sweep(at(60))
    await send(patientId, 62, wellReport(drain, 62))
    const ended = await read((tx) => tx.flag.findFirst({ where: { state: 'ended' } }))
    await readWeek(pia, WEEK, at(OVER))
    const item = await read((tx) => tx.reviewItem.findFirstOrThrow({ where: { flagId: ended?.id ?? '' } }))
    await write((tx) => tx.reviewItem.update({ where: { id: item.id }, data: { twice: false } }))
    await judge(pia, item.id, 1, 'not-warranted', OVER)
    expect((await openItem(pia, item.id, key(), at(OVER))).flag).toMatchObject({
      state: 'Ended',
      hadEnded: true,
    })
  })
})

describe('the second reading', () => {
  it('is another person’s, blind to the first', async () => {
    await hire(tom)
    const { item } = await flagItem(true)
    expect((await refusal(judge(tom, item, 2, 'warranted', OVER))).detail).toBe(
      'The first reading comes first.',
    )
    await judge(pia, item, 1, 'not-warranted', OVER, { note: 'Nothing in it.' })
    expect((await refusal(judge(pia, item, 2, 'warranted', OVER))).detail).toMatch(/another person/)

    const blind = await readItem(tom, item, at(OVER))
    expect(blind).toMatchObject({ task: 'read-again', reading: 2, own: [], toSettle: [] })
    expect(JSON.stringify(blind)).not.toMatch(/not-warranted|Nothing in it/)
    expect(await lineOf(tom, item, OVER)).toMatchObject({ own: null, counts: null })
    expect((await refusal(openItem(tom, item, key(), at(OVER)))).kind).toBe('conflict')

    await judge(tom, item, 2, 'not-warranted', OVER)
    expect(await lineOf(tom, item, OVER)).toMatchObject({ own: 'not-warranted', counts: 'not-warranted' })
    expect((await refusal(judge(pia, item, 2, 'warranted', OVER))).detail).toMatch(/Somebody else/)
    expect((await refusal(judge(pia, item, 3, 'warranted', OVER))).detail).toMatch(/agree/)
    const { weeks, agreement } = await readWeeks(pia, at(OVER))
    expect(weeks[0]).toMatchObject({ read: 1, readTwice: 1, disagreed: 0 })
    expect(agreement).toMatchObject({ n: 1, same: 1 })
  })

  it('is the same person’s after a fortnight where there is nobody else', async () => {
    const { item } = await flagItem(true)
    await judge(pia, item, 1, 'warranted', OVER)
    expect(await lineOf(pia, item, OVER + 1)).toMatchObject({ task: 'none', notBefore: iso(OVER + 14 * 24) })
    expect((await refusal(judge(pia, item, 2, 'warranted', OVER + 14 * 24 - 1))).detail).toMatch(
      /you can give the second from Mon 23 Mar/,
    )
    // What happened must not tell the second reading either.
    expect((await refusal(openItem(pia, item, key(), at(OVER + 1)))).detail).toMatch(/opens after that/)
    const blind = await readItem(pia, item, at(WEEKS_LATER))
    expect(blind).toMatchObject({ task: 'read-again', reading: 2, own: [] })
    expect(JSON.stringify(blind)).not.toMatch(/"warranted"/)
    expect(await lineOf(pia, item, WEEKS_LATER)).toMatchObject({
      own: null,
      counts: null,
      task: 'read-again',
    })
    expect((await refusal(openItem(pia, item, key(), at(WEEKS_LATER)))).kind).toBe('conflict')
    await judge(pia, item, 2, 'warranted', WEEKS_LATER)
    expect(await lineOf(pia, item, WEEKS_LATER)).toMatchObject({ counts: 'warranted', task: 'none' })
  })

  it('of whoever had opened it when there was another reader is not blind', async () => {
    await hire(tom)
    const { item } = await flagItem(true)
    await judge(pia, item, 1, 'warranted', OVER)
    await openItem(pia, item, key(), at(OVER))
    await write((tx) => tx.staff.update({ where: { id: tom.id }, data: { disabledAt: at(OVER) } }))
    expect(await judge(pia, item, 2, 'warranted', WEEKS_LATER)).toMatchObject({ isOpened: true })
    expect((await readWeeks(pia, at(WEEKS_LATER))).agreement).toMatchObject({ n: 0 })
  })

  it('counts for agreement as it was before either reader could see the other', async () => {
    await hire(tom)
    const { item } = await flagItem(true)
    await judge(pia, item, 1, 'warranted', OVER)
    await judge(tom, item, 2, 'not-warranted', OVER)
    // With no third reader either of them may settle, and so sees both verdicts.
    expect((await readItem(pia, item, at(OVER))).toSettle).toHaveLength(2)
    await judge(pia, item, 1, 'not-warranted', OVER)
    expect((await readWeeks(pia, at(OVER))).agreement).toMatchObject({ n: 1, same: 0 })
  })

  it('counts for agreement as it was before what happened was opened', async () => {
    await hire(tom)
    const { item } = await flagItem(true)
    await judge(pia, item, 1, 'warranted', OVER)
    await judge(tom, item, 2, 'not-warranted', OVER)
    await openItem(tom, item, key(), at(OVER))
    await judge(tom, item, 2, 'warranted', OVER)
    const { agreement, weeks } = await readWeeks(pia, at(OVER))
    expect(agreement).toMatchObject({ n: 1, same: 0 })
    expect(weeks[0]).toMatchObject({ disagreed: 0, readTwice: 1 })
  })
})

describe('a disagreement', () => {
  it('is settled by a third, who sees both verdicts without names', async () => {
    await hire(tom, eva)
    const { item } = await flagItem(true)
    await judge(pia, item, 1, 'warranted', OVER)
    expect((await refusal(judge(eva, item, 3, 'warranted', OVER))).detail).toMatch(
      /second reading comes first/,
    )
    await judge(tom, item, 2, 'not-warranted', OVER)
    expect((await refusal(judge(pia, item, 3, 'warranted', OVER))).detail).toMatch(/somebody else settles/)
    expect(await lineOf(pia, item, OVER)).toMatchObject({ task: 'none', counts: null })
    const page = await readItem(eva, item, at(OVER))
    expect(page).toMatchObject({ task: 'settle', reading: 3, settlesOwn: false })
    expect(page.toSettle.map(({ verdict }) => verdict)).toEqual(['warranted', 'not-warranted'])
    expect(JSON.stringify(page)).not.toMatch(/Pia|Tom|"pia"|"tom"/)
    await judge(eva, item, 3, 'warranted-late', OVER)
    expect(await lineOf(pia, item, OVER)).toMatchObject({ counts: 'warranted-late' })
    expect((await readWeeks(pia, at(OVER))).weeks[0]).toMatchObject({ disagreed: 0 })
  })

  it('is settled by one of the two only where there is no third', async () => {
    await hire(tom)
    const { item } = await flagItem(true)
    await judge(pia, item, 1, 'warranted', OVER)
    await judge(tom, item, 2, 'not-warranted', OVER)
    expect(await lineOf(tom, item, OVER)).toMatchObject({ task: 'settle' })
    expect(await readItem(tom, item, at(OVER))).toMatchObject({ reading: 3, settlesOwn: true })
    await judge(pia, item, 3, 'not-warranted', OVER)
    expect(await lineOf(tom, item, OVER)).toMatchObject({ counts: 'not-warranted', task: 'none' })
  })
})

describe('verdicts reach the nurse', () => {
  const call = async (patientId: string) => {
    const [flag] = (await readWorklist(nurse, at(60))).rows.flatMap((row) => row.flags)
    const body = {
      outcome: 'reached',
      spokenTo: 'patient',
      agreed: ['emergency-department'],
      closes: [flag?.id],
      lookAgainAt: iso(400),
    }
    await recordCallback(nurse, patientId, body, key(), at(60))
  }

  it('who called, in a list and beside the flag', async () => {
    const { item, patientId, flagId } = await flagItem(false)
    await call(patientId)
    expect(await verdictsOnMyCalls(nurse, at(OVER))).toEqual([])
    await judge(pia, item, 1, 'warranted-late', OVER, { truly: 'infection', note: 'A good catch.' })
    expect(await verdictsOnMyCalls(nurse, at(OVER))).toMatchObject([
      {
        flagId,
        patientId,
        verdict: 'warranted-late',
        note: 'A good catch.',
        by: 'Pia Invented',
        flag: 'Signs of infection',
      },
    ])
    expect(await verdictsOnMyCalls(otherNurse, at(OVER))).toEqual([])
    expect((await readPatientPage(nurse, patientId, at(OVER))).verdicts).toMatchObject([
      { flagId, verdict: 'warranted-late', truly: 'infection', by: 'Pia Invented' },
    ])
  })

  it('not before the second reading, which may look at that page', async () => {
    await hire(tom)
    const { item, patientId } = await flagItem(true)
    await call(patientId)
    await judge(pia, item, 1, 'warranted', OVER)
    expect(await verdictsOnMyCalls(nurse, at(OVER))).toEqual([])
    expect((await readPatientPage(tom, patientId, at(OVER))).verdicts ?? []).toEqual([])
    await judge(tom, item, 2, 'warranted', OVER)
    expect(await verdictsOnMyCalls(nurse, at(OVER))).toHaveLength(1)
  })
})
