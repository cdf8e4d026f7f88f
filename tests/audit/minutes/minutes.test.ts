import { beforeEach, describe, expect, it } from 'vitest'
import { pagesOf } from '../../../e2e/support/pdf.ts'
import { namePrimary } from '../../../lib/audit/figures/index.ts'
import { readMinutes, readSignedMinutes, signMinutes } from '../../../lib/audit/minutes/index.ts'
import { drawWeek, readWeek, saveReview } from '../../../lib/audit/week/index.ts'
import { figuresPart } from '../../../lib/domain/minutes-lines.ts'
import { receiveReport } from '../../../lib/intake/index.ts'
import { read, write } from '../../../lib/store/index.ts'
import { minutesPdf } from '../../../lib/worklist/print/minutes-pdf.ts'
import { at, CLINIC, openClinics, patient, wellReport } from '../../store/clinic.ts'
import { databasePerTest } from '../../store/database.ts'
import { ada, ben, elsewhere, employ } from '../rules/house.ts'

databasePerTest()
beforeEach(async () => {
  await openClinics()
  await employ(ada, ben, elsewhere)
})

/** The house of tests/store/clinic.ts begins on Monday 2 March 2026; this is when that week is over in Denver. */
const WEEK = '2026-03-02'
const OVER = 7 * 24
let keys = 0
const key = () => `minutes-${++keys}`

/** A week in which one patient had a fever. */
async function aWeek() {
  const one = await patient(0)
  const { symptoms, ...rest } = wellReport(one.drain, 20)
  await receiveReport(
    {
      ...{
        clinicId: CLINIC,
        patientId: one.patientId,
        door: 'check-in',
        source: one.patientId,
        by: null,
        key: 's',
      },
      body: { ...rest, symptoms: { ...symptoms, temperatureC: 38.6 } },
    },
    at(20),
  )
  return one
}

async function readAll(hours: number) {
  await drawWeek(ada, WEEK, at(hours))
  const { items } = await readWeek(ada, WEEK, at(hours))
  for (const { id, task } of items)
    if (task === 'read')
      await saveReview(
        ada,
        { item: id, reading: 1, verdict: 'warranted', truly: 'infection', harm: 'minor' },
        key(),
        at(hours),
      )
  return items.length
}

const sign = async (who: typeof ada, hours: number, wanted: object = {}) => {
  const { now, hash } = await readMinutes(who, WEEK, at(hours))
  return signMinutes(
    who,
    WEEK,
    { cutOff: now.cutOff, seen: hash, decisions: '', ...wanted },
    key(),
    at(hours),
  )
}

describe('the minutes of a week', () => {
  it('hold the cut-off, the rule set by its hash, the verdicts, the figures, and name no patient', async () => {
    const one = await aWeek()
    const items = await readAll(OVER)
    await sign(ada, OVER + 1, { decisions: 'Call fevers within the hour.' })
    const page = await readMinutes(ben, WEEK, at(OVER + 2))
    expect(page.signed).toHaveLength(1)
    const { minutes, isWhole } = page.signed[0] ?? {}
    expect(isWhole).toBe(true)
    expect(minutes).toMatchObject({
      decisions: 'Call fevers within the hour.',
      amends: null,
      signedBy: { name: ada.name },
      signedAt: at(OVER + 1).toISOString(),
      content: {
        cutOff: at(OVER + 1).toISOString(),
        from: '2026-03-02T07:00:00.000Z',
        ruleSet: { version: '2026.1', hash: expect.stringMatching(/^[0-9a-f]{64}$/) },
        verdicts: { items, unread: 0 },
      },
    })
    const { lines, harm, awaitSecond } = minutes?.content.verdicts ?? { lines: [], harm: {}, awaitSecond: 0 }
    expect(lines.reduce((sum, { counts }) => sum + (counts.warranted ?? 0), 0) + awaitSecond).toBe(items)
    expect(harm).toMatchObject({ minor: items, serious: 0 })
    expect(minutes?.content.figures.map(({ name }) => name)).toContain('predictive-value')
    const text = JSON.stringify(minutes)
    const person = await read((tx) => tx.patient.findUniqueOrThrow({ where: { id: one.patientId } }))
    for (const secret of [person.name, person.recordNumber, person.id, one.drain])
      expect(text).not.toContain(secret)
  })

  it('say first which figure was named beforehand, and that all others are descriptive', async () => {
    await aWeek()
    const figures = async (week: string) =>
      figuresPart((await readMinutes(ada, week, at(2 * OVER))).now).lines
    expect((await figures(WEEK))[0]?.text).toBe('No figure was named beforehand: all are descriptive.')
    await namePrimary(ada, { figure: 'log-adherence', why: 'Silence is our risk.' }, key(), at(1))
    expect((await figures(WEEK))[0]?.text).toMatch(/^No figure was named/)
    const [first, ...others] = await figures('2026-03-09')
    expect(first?.text).toMatch(/^Days on which something was heard/)
    expect(first?.under[0]).toBe(
      'Named beforehand by Dr Ada (invented); all others are descriptive. Why: Silence is our risk.',
    )
    expect(others.length).toBeGreaterThan(10)
    expect(others.map(({ text }) => text).join()).not.toMatch(/No figure was named|something was heard:/)
  })

  it('are signed before all was read with a reason alone, and not before the week is over', async () => {
    await aWeek()
    await expect(sign(ada, 100)).rejects.toThrow(/^This week is not over before Mon 9 Mar, 00:00/)
    await expect(sign(ada, OVER)).rejects.toMatchObject({ faults: [{ field: 'unreadWhy' }] })
    await drawWeek(ada, WEEK, at(OVER))
    await expect(sign(ada, OVER)).rejects.toThrow(/no first verdict\. Say why/)
    await sign(ada, OVER, { unreadWhy: 'Half the team was ill' })
    expect((await readMinutes(ada, WEEK, at(OVER))).signed[0]?.minutes?.unreadWhy).toBe(
      'Half the team was ill',
    )
  })

  it('are signed as they were read: what changed since must be read again', async () => {
    await aWeek()
    const { now, hash } = await readMinutes(ada, WEEK, at(OVER))
    await readAll(OVER)
    const body = { cutOff: now.cutOff, seen: hash, decisions: '', unreadWhy: 'In a hurry' }
    await expect(signMinutes(ada, WEEK, body, key(), at(OVER))).rejects.toThrow(
      /have changed since you read them/,
    )
    await expect(
      signMinutes(ada, WEEK, { ...body, cutOff: at(OVER + 2).toISOString() }, key(), at(OVER)),
    ).rejects.toMatchObject({ faults: [{ field: 'cutOff' }] })
    await expect(
      sign(ada, OVER + 13).then(() => signMinutes(ada, WEEK, body, key(), at(OVER + 13))),
    ).rejects.toMatchObject({ faults: [{ field: 'cutOff' }] })
  })

  it('take one signature, also of two at once; whatever comes later amends the newest', async () => {
    await aWeek()
    await readAll(OVER)
    const pages = await Promise.all([readMinutes(ada, WEEK, at(OVER)), readMinutes(ben, WEEK, at(OVER))])
    const answers = await Promise.allSettled(
      pages.map(({ now, hash }, i) =>
        signMinutes(i ? ben : ada, WEEK, { cutOff: now.cutOff, seen: hash, decisions: '' }, key(), at(OVER)),
      ),
    )
    expect(answers.map(({ status }) => status)).toEqual(['fulfilled', 'rejected'])
    expect(answers[1]).toMatchObject({
      reason: { message: expect.stringContaining('Dr Ada (invented) has signed') },
    })

    const [first] = (await readMinutes(ada, WEEK, at(OVER))).signed
    await expect(sign(ben, OVER + 1, { amends: first?.id })).rejects.toMatchObject({
      faults: [{ field: 'why' }],
    })
    await expect(sign(ben, OVER + 1, { amends: 'other', why: 'x' })).rejects.toThrow(/names the newest/)
    await sign(ben, OVER + 1, { amends: first?.id, why: 'A late report', decisions: 'Look again.' })
    await expect(sign(ada, OVER + 2, { amends: first?.id, why: 'x' })).rejects.toThrow(/names the newest/)
    const { signed } = await readMinutes(ada, WEEK, at(OVER + 2))
    expect(signed).toMatchObject([
      { isWhole: true, minutes: { amends: first?.id, why: 'A late report', signedBy: { name: ben.name } } },
      { id: first?.id, isWhole: true, minutes: { amends: null, signedBy: { name: ada.name } } },
    ])
  })

  it('hold the figures of a week with a change of the clocks in it and of one without', async () => {
    await aWeek()
    for (const week of [WEEK, '2026-03-09']) {
      const { now } = await readMinutes(ada, week, at(2 * OVER))
      const silence = now.figures.find(({ name }) => name === 'log-adherence')
      expect(silence?.denominator).toBe(7)
    }
  })

  it('answer a repeat of a key with the first answer', async () => {
    await aWeek()
    await readAll(OVER)
    const { now, hash } = await readMinutes(ada, WEEK, at(OVER))
    const body = { cutOff: now.cutOff, seen: hash, decisions: 'One.' }
    const first = await signMinutes(ada, WEEK, body, 'same', at(OVER))
    expect(await signMinutes(ada, WEEK, body, 'same', at(OVER))).toEqual(first)
    await expect(
      signMinutes(ada, WEEK, { ...body, decisions: 'Two.' }, 'same', at(OVER)),
    ).rejects.toMatchObject({ kind: 'key-reused' })
  })

  it('that were altered in the store are shown as such, and not printed', async () => {
    await aWeek()
    await readAll(OVER)
    const { minutes: id } = await sign(ada, OVER, { decisions: 'Nothing.' })
    const row = await read((tx) => tx.weekMinutes.findUniqueOrThrow({ where: { id } }))
    const body = row.body.replace('Nothing.', 'Something.')
    await write((tx) => tx.$executeRaw`UPDATE "WeekMinutes" SET "body" = ${body} WHERE "id" = ${id}`)
    expect((await readMinutes(ada, WEEK, at(OVER))).signed).toMatchObject([{ id, isWhole: false }])
    await expect(readSignedMinutes(ada, WEEK, null, at(OVER))).rejects.toThrow(/do not fit their hash/)
  })

  it('print with their cautions, their hash and who signed, also in another script', async () => {
    await aWeek()
    await readAll(OVER)
    await sign(ada, OVER, { decisions: 'Позвонить завтра.\nCall fevers first.' })
    const kept = await readSignedMinutes(ben, WEEK, null, at(OVER))
    const pages = await pagesOf(await minutesPdf(kept, 'A4'))
    const text = pages
      .map((page) => page.text)
      .join('\n')
      .replace(/\s+/g, ' ')
    expect(text).toContain('Minutes of the week of 2 Mar 2026 to 8 Mar 2026')
    expect(text).toContain('Позвонить завтра.')
    expect(text).toContain(kept.hash)
    expect(text).toContain('Signed by Dr Ada (invented), 9 Mar 2026, 02:00.')
    for (const page of pages) expect(page.text).toContain('Decision support, not a diagnosis.')
    const seen = await read((tx) => tx.accessRecord.findMany({ where: { action: 'print-minutes' } }))
    expect(seen).toMatchObject([{ staffId: ben.id }])
  })

  it('are another clinic’s own, and only of a Monday', async () => {
    await aWeek()
    await readAll(OVER)
    await sign(ada, OVER)
    expect((await readMinutes(elsewhere, WEEK, at(OVER))).signed).toEqual([])
    await expect(readSignedMinutes(elsewhere, WEEK, null, at(OVER))).rejects.toMatchObject({
      kind: 'not-found',
    })
    await expect(readMinutes(ada, '2026-03-03', at(OVER))).rejects.toMatchObject({ kind: 'invalid-input' })
    await expect(readMinutes(ada, 'x', at(OVER))).rejects.toMatchObject({ kind: 'invalid-input' })
  })
})
