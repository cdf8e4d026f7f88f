import { describe, expect, it } from 'vitest'
import type { Finding } from '@/lib/domain/assessment.ts'
import { callSheet } from '@/lib/domain/call-sheet.ts'
import { type Line, type Piece, textOf, tie, traced } from '@/lib/domain/call-sheet-line.ts'
import { sheetText } from '@/lib/domain/call-sheet-text.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { cautions } from '@/lib/domain/project.ts'
import { PatientRecord, type Report } from '@/lib/domain/record.ts'
import { assess } from '@/lib/rules/assess.ts'
import { standardRuleSet } from '@/lib/rules/thresholds.ts'
import { flag } from '../app/fixtures/flag.ts'
import { page } from '../app/fixtures/page.ts'
import { vignettes } from '../fixtures/vignettes/index.ts'

/** The page of a situation as the rules see it, every finding a flag. */
function pageOf(given: PatientRecord, at: string): PatientPage {
  const record = PatientRecord.parse(given)
  const assessment = assess(record, standardRuleSet, at)
  const base = page()
  return {
    ...base,
    asOf: at,
    clinic: { ...base.clinic, timeZone: record.timeZone },
    record,
    assessment,
    labels: Object.fromEntries(
      record.drains.map(({ id }) => [id, { label: `tube ${id}`, frenchSize: 12, lengthMarkCm: null }]),
    ),
    flags: assessment.findings.map((finding: Finding, i) => ({
      ...flag(),
      ...finding,
      id: `f${i}`,
      state: 'open',
      finding,
    })),
  }
}
const situations = Object.values(vignettes)
  .flat()
  .map(({ name, record, at }) => [name, pageOf(record, at), Date.parse(at)] as const)

const linesOf = (given: PatientPage, now: number): Line[] => {
  const { situation, background, seen } = callSheet(given, now)
  return [
    ...situation.flatMap(({ lead, rest }) => [lead, rest]),
    ...background.lines,
    ...background.person,
    ...background.more,
    ...seen.lines,
    ...seen.more,
  ]
}
const tied = (line: Line) =>
  line.filter((piece): piece is Exclude<Piece, string> => typeof piece !== 'string')

/** Every number that a report holds, and its times, that of its receipt among them. */
function numbersOf(report: Report, zone: string): { values: number[]; times: string[] } {
  const parts = [
    ...(report.readings ?? []),
    ...(report.flushes ?? []),
    ...(report.dressings ?? []),
    ...(report.symptoms ? [report.symptoms] : []),
  ]
  const values = [
    ...(report.readings ?? []).map(({ volumeMl }) => volumeMl),
    ...(report.flushes ?? []).map(({ volumeMl }) => volumeMl),
    report.symptoms?.temperatureC,
    report.symptoms?.pain,
  ].filter((value) => value != null)
  const clock = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  })
  return {
    values,
    times: [...parts.map(({ at }) => at), report.receivedAt].map((at) => clock.format(Date.parse(at))),
  }
}

describe.each(situations)('%s', (_name, given, now) => {
  it('has no number that does not say where it comes from', () => {
    // A drain's own name may hold a digit; it is a name.
    const bare = linesOf(given, now)
      .flatMap((line) => line.filter((piece) => typeof piece === 'string'))
      .map((text) => text.replace(/Tube d\d+/g, ''))
    expect(bare.filter((text) => /\d/.test(text))).toEqual([])
  })
  it('leads from a number to a report only where the report says it', () => {
    for (const { text, on } of linesOf(given, now).flatMap(tied)) {
      if (on.to === 'basis') expect(given.flags.map(({ id }) => id)).toContain(on.flag)
      if (on.to !== 'report') continue
      const report = given.record.reports.find(({ id }) => id === on.id)
      expect(report, text).toBeDefined()
      if (!report) continue
      const { values, times } = numbersOf(report, given.record.timeZone)
      const time = /\d\d:\d\d/.exec(text)?.[0]
      if (time) expect(times, text).toContain(time)
      else
        expect(
          values.some((value) => Math.abs(value - Number.parseFloat(text)) <= 0.5),
          `${text} in ${report.id}`,
        ).toBe(true)
    }
  })
  it('leads from a temperature that was told to the report that told it', () => {
    for (const { lead, rest } of callSheet(given, now).situation)
      for (const [i, piece] of [...lead, ...rest].entries()) {
        if (typeof piece === 'string' || !piece.text.endsWith('°C')) continue
        const before = [...lead, ...rest][i - 1]
        if (typeof before === 'string' && before.endsWith('limit ')) continue
        expect(piece.on.to, piece.text).toBe('report')
      }
  })
  it('keeps each finding’s sentence whole but for the day of its times', () => {
    // Without its dates, which the sheet writes shorter.
    const clean = (text: string) =>
      text
        .replace(/[A-Z][a-z]{2} \d{1,2} [A-Z][a-z]{2}|\d{4}-\d{2}-\d{2}|[A-Z][a-z]{2} (?=\d\d:)/g, '')
        .replace(/[\s,]+/g, '')
    const { situation } = callSheet(given, now)
    for (const { flag: id, lead, rest } of situation) {
      const says = given.flags.find((one) => one.id === id)?.finding.says
      if (says === undefined) continue
      const told = (textOf(lead) + textOf(rest)).replace(/^Tube d\d+: /, '')
      expect(clean(told)).toBe(clean(says))
    }
  })
})

describe('a sentence and its numbers', () => {
  const on = { to: 'orders' } as const
  const numbers = (line: Line) => tied(line).map(({ text }) => text)
  it('are taken whole, with their units, and nothing is lost', () => {
    const text =
      'Ask for Basil (son, +1 555-0142): 12 F, day 41 (15 Oct), 38.6 °C, −20 mL, 34% of 410 mL/day, Mon 20:10, Tue 24 Nov, 06:50, pain 8 of 10.'
    expect(textOf(tie(text, on))).toBe(text)
    expect(numbers(tie(text, on))).toEqual([
      '+1 555-0142',
      '12 F',
      '41',
      '15 Oct',
      '38.6 °C',
      '−20 mL',
      '34%',
      '410 mL/day',
      'Mon 20:10',
      'Tue 24 Nov, 06:50',
      '8 of 10',
    ])
  })
  it('lead to the report that says them, and a limit to what the finding rests on', () => {
    const evidence = [
      { report: 'r1', at: '2026-11-24T13:50:00Z', what: 'pain', value: 8, unit: '{score}' },
      { report: 'r2', at: '2026-11-24T13:50:00Z', what: 'temperature', value: 38.4, unit: 'Cel' },
      { report: null, at: '2026-11-24T13:50:00Z', what: 'net output', value: 140, unit: 'mL' },
    ]
    const line = traced('Pain 8 of 10 reported 06:50 (limit 8), net 140 mL, 38.4 °C.', {
      evidence,
      flag: 'f1',
      zone: 'America/Denver',
      now: Date.parse('2026-11-24T14:34:00Z'),
    })
    expect(tied(line).map(({ text, on }) => [text, on.to])).toEqual([
      ['8 of 10', 'report'],
      ['06:50', 'report'],
      ['8', 'basis'],
      ['140 mL', 'basis'],
      ['38.4 °C', 'report'],
    ])
  })
})

describe('the sheet as text', () => {
  const given = page()
  const now = Date.parse(given.asOf)
  const text = sheetText(given, callSheet(given, now), {
    by: 'R. Okafor (invented)',
    now,
    asked: [{ code: 'output-decline', drain: null, question: 'Temperature now?', answer: '38.6 °C' }],
  })
  it('says whose it is, when and by whom it was taken, and ends in the cautions', () => {
    const lines = text.split('\n')
    expect(lines.slice(0, 3)).toEqual([
      'CALL SHEET',
      'Imre Vasquez-Holm (invented) · 12 Mar 1958 · 40-1177 · call 555-0142',
      'Copied by R. Okafor (invented), Tue 24 Nov, 07:34 (America/Denver). Larkfield clinic (invented), Outflow Round.',
    ])
    expect(lines.at(-1)).toBe(cautions)
    expect(lines.at(-2)).toContain('not approved by this clinic')
  })
  it('says of several drains which of them was asked about', () => {
    const two = page()
    const [drain] = two.record.drains
    if (drain) two.record.drains.push({ ...drain, id: 'd2' })
    two.labels.d2 = { label: 'right kidney', frenchSize: null, lengthMarkCm: null }
    const asked = ['d1', 'd2'].map((id) => ({
      ...{
        code: 'leak' as const,
        drain: id,
        question: 'Wet around the tube?',
        answer: id === 'd1' ? 'no' : 'yes',
      },
    }))
    const said = sheetText(two, callSheet(two, now), { by: 'R. Okafor (invented)', now, asked })
    expect(said).toContain('- [x] Left kidney: Wet around the tube? no')
    expect(said).toContain('- [x] Right kidney: Wet around the tube? yes')
  })
  it('holds all four parts, and the answers beside their questions', () => {
    for (const title of ['SITUATION', 'BACKGROUND', 'ASSESSMENT', 'ASK', 'ADVISE'])
      expect(text).toContain(`\n${title}\n`)
    expect(text).toContain('- Net output 140 mL in the 24 h to 06:50, 34%')
    expect(text).toContain('- [x] Temperature now? 38.6 °C')
    expect(text.match(/Temperature now/g)).toHaveLength(1)
    expect(text).toContain('- [ ] Shaking or chills?')
  })
})
