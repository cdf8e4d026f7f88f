import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import type { Assessment } from '../lib/domain/assessment.ts'
import { PatientRecord } from '../lib/domain/record.ts'
import { FindingCode, urgencyHours } from '../lib/domain/words.ts'
import { assess } from '../lib/rules/assess.ts'
import { standardRuleSet } from '../lib/rules/thresholds.ts'
import type { Expected, Vignette } from './fixtures/vignettes/build.ts'
import { vignettes } from './fixtures/vignettes/index.ts'

const hour = 3_600_000
const all = Object.values(vignettes).flat()
const utc = (instant: string) => new Date(instant).toISOString()
const sorted = (lines: string[]) => lines.sort()

/** Findings as lines that a clinician can compare: code, drain, urgency, since, act by. */
function expected(findings: Expected[]): string[] {
  return sorted(
    findings.map((finding) => {
      const since = Date.parse(finding.since)
      const actBy = since + (urgencyHours[finding.urgency] ?? 0) * hour
      return `${finding.code} of ${finding.drain ?? 'the patient'}: ${finding.urgency}, since ${utc(finding.since)}, by ${new Date(actBy).toISOString()}`
    }),
  )
}
const found = (assessment: Assessment): string[] =>
  sorted(
    assessment.findings.map(
      ({ code, drain, urgency, since, actBy }) =>
        `${code} of ${drain ?? 'the patient'}: ${urgency}, since ${utc(since)}, by ${utc(actBy)}`,
    ),
  )

function compareDays(vignette: Vignette, assessment: Assessment): void {
  for (const [drain, days] of Object.entries(vignette.expect.days ?? {})) {
    const told = assessment.drains.find((output) => output.drain === drain)?.days ?? []
    days.forEach((day, i) => {
      const ours = told[i]
      expect(ours?.date, `day ${i + 1} of ${drain}`).toBe(day.date)
      if (day.netMl === null) expect(ours?.netMl, day.date).toBeNull()
      else expect(ours?.netMl, day.date).toBeCloseTo(day.netMl, 2)
      if (day.coverage !== undefined) expect(ours?.coverage, day.date).toBeCloseTo(day.coverage, 6)
      if (day.hours !== undefined) expect(ours?.hours, day.date).toBe(day.hours)
    })
  }
}

describe.each(Object.entries(vignettes))('%s', (_topic, list) => {
  it.each(list.map((vignette) => [vignette.name, vignette] as const))('%s', (_name, vignette) => {
    const record = PatientRecord.parse(vignette.record)
    const assessment = assess(record, standardRuleSet, vignette.at)
    const { findings } = vignette.expect
    const told = `${vignette.situation} ${vignette.why}`
    if (findings) expect(found(assessment), told).toEqual(expected(findings))
    expect(assessment.urgency, told).toBe(vignette.expect.urgency)
    const firstActBy = assessment.findings
      .map((finding) => Date.parse(finding.actBy))
      .sort((a, b) => a - b)[0]
    expect(assessment.actBy === null ? undefined : Date.parse(assessment.actBy)).toBe(firstActBy)
    const { nextCheckAt, baselineMlPerDay } = vignette.expect
    if (nextCheckAt !== undefined)
      expect(assessment.nextCheckAt && utc(assessment.nextCheckAt)).toBe(nextCheckAt && utc(nextCheckAt))
    for (const [drain, baseline] of Object.entries(baselineMlPerDay ?? {})) {
      const ours = assessment.drains.find((output) => output.drain === drain)?.baselineMlPerDay
      if (baseline === null) expect(ours).toBeNull()
      else expect(ours).toBeCloseTo(baseline, 6)
    }
    compareDays(vignette, assessment)
  })
})

describe('by the command', () => {
  const folder = mkdtempSync(join(tmpdir(), 'vignettes-'))
  afterAll(() => rmSync(folder, { recursive: true }))

  it.each([
    'A fall and a fever',
    'The only kidney',
    '37.9 °C',
    'The night when the clock goes back',
    'Corrected twice',
  ])('says the same of: %s', (name) => {
    const vignette = all.find((one) => one.name === name)
    if (!vignette) throw new Error(`no vignette is called ${name}`)
    const file = join(folder, 'record.json')
    writeFileSync(file, JSON.stringify(vignette.record))
    const command = ['--import', 'tsx', 'lib/commands/assess.ts', file, '--at', vignette.at]
    const printed: Assessment = JSON.parse(execFileSync(process.execPath, command, { encoding: 'utf8' }))
    expect(found(printed)).toEqual(expected(vignette.expect.findings ?? []))
    expect(printed.urgency).toBe(vignette.expect.urgency)
  })
})

describe('the collection', () => {
  it('holds at least 100 situations, each with a name of its own', () => {
    expect(all.length).toBeGreaterThanOrEqual(100)
    expect(new Set(all.map((vignette) => vignette.name)).size).toBe(all.length)
  })
  it('raises every code in at least one of them', () => {
    const raised = new Set(
      all.flatMap((vignette) => (vignette.expect.findings ?? []).map((finding) => finding.code)),
    )
    expect(FindingCode.options.filter((code) => !raised.has(code))).toEqual([])
  })
  it('has situations that must not raise anything: at least a third', () => {
    const quiet = all.filter((vignette) => vignette.expect.urgency === 'none')
    expect(quiet.length * 3).toBeGreaterThanOrEqual(all.length)
  })
})
