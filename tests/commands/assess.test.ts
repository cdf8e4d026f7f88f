import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import type { Assessment } from '../../lib/domain/assessment.ts'
import { at, days, reading, record, state, symptoms } from '../support/build.ts'

const folder = mkdtempSync(join(tmpdir(), 'assess-'))
afterAll(() => rmSync(folder, { recursive: true }))

const write = (name: string, content: unknown): string => {
  const file = join(folder, name)
  writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content))
  return file
}
function assess(args: string[], input = '') {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', 'tsx', 'lib/commands/assess.ts', ...args],
    {
      encoding: 'utf8',
      input,
      env: { ...process.env, NODE_NO_WARNINGS: '1' },
    },
  )
  return { status, stdout, stderr, lines: stderr.split('\n').filter((line) => line) }
}
type Run = ReturnType<typeof assess>
/** What every refusal has in common: exit 2, nothing printed, no stack. */
function refused({ status, stdout, stderr }: Run) {
  expect({ status, stdout }).toEqual({ status: 2, stdout: '' })
  expect(stderr).not.toMatch(/^ {4}at /m)
}

const fall = record({}, [...days([400, 420, 410]), reading(96, 140, { id: 'r9' })])
const feverish = record({}, [symptoms(5, { temperatureC: 38.4 })])
const fallFile = write('fall.json', fall)
const feverFile = write('fever.json', feverish)

describe('one record', () => {
  const run = assess([fallFile, '--at', at(97)])
  const printed: Assessment = JSON.parse(run.stdout)

  it('is answered with one JSON object and exit 0', () => {
    expect([run.status, run.stderr]).toEqual([0, ''])
    expect(Object.keys(printed)).toEqual([
      'asOf',
      'ruleSet',
      'urgency',
      'actBy',
      'nextCheckAt',
      'findings',
      'drains',
    ])
    expect(printed).toMatchObject({ asOf: at(97), ruleSet: '2026.1', urgency: 'within-1h', actBy: at(97) })
  })
  it('has findings with the documented fields, and the sentence that ends them', () => {
    const [decline] = printed.findings
    expect(Object.keys(decline ?? {}).sort()).toEqual([
      'actBy',
      'code',
      'drain',
      'evidence',
      'nature',
      'says',
      'since',
      'threshold',
      'urgency',
    ])
    expect(Object.keys(decline?.threshold ?? {})).toEqual(['name', 'value', 'source', 'confidence'])
    expect(decline).toMatchObject({ code: 'output-decline', drain: 'd1', since: at(96), actBy: at(97) })
    expect(decline?.says).toContain("34% of this drain's usual 410 mL/day")
    expect(decline?.says).toContain('It ends when')
  })
  it('has the drain’s baseline and days', () => {
    expect(printed.drains[0]).toMatchObject({ drain: 'd1', baselineMlPerDay: 410 })
    expect(printed.drains[0]?.days[0]).toEqual({ date: '2026-03-02', netMl: 400, coverage: 1, hours: 24 })
  })
})

describe('several records', () => {
  it('are one compact line each, in their order, one of them from standard input', () => {
    const run = assess(
      [feverFile, '-', fallFile, '--at', at(97)],
      JSON.stringify(record({}, [state(5, { leak: true })])),
    )
    const lines = run.stdout.split('\n')
    expect([run.status, lines.length, lines[3]]).toEqual([0, 4, ''])
    const codes = lines
      .slice(0, 3)
      .map((line) => (JSON.parse(line) as Assessment).findings.map((f) => f.code)[0])
    expect(codes).toEqual(['infection-signs', 'leak', 'output-decline'])
  })
})

describe('a bad record', () => {
  it('has one line per fault: file, path, what was given, what is accepted; and nothing is printed of the good ones', () => {
    const bad = write('bad.json', {
      ...fall,
      more: 1,
      timeZone: 'nowhere',
      reports: [{ ...reading(5, -3), supersedes: 'r0' }],
    })
    const own = write('own.json', record({ plan: { overrides: { feverC: 41 } } }))
    const run = assess([
      fallFile,
      bad,
      own,
      write('broken.json', '{"drains":'),
      join(folder, 'none.json'),
      '--at',
      at(97),
    ])
    refused(run)
    expect(run.lines).toHaveLength(7)
    expect(run.lines).toContain(
      `${bad}: reports[0].readings[0].volumeMl: -3; accepted: a number from 0 to 100000 mL`,
    )
    expect(run.lines).toContain(`${bad}: more: is not a field of this; remove it`)
    expect(run.lines).toContain(`${own}: drains[0].plan.overrides.feverC: 41; accepted: 37.5 to 39 °C`)
    expect(run.stderr).toContain(`${bad}: timeZone: "nowhere"; accepted: a time zone`)
    expect(run.stderr).toContain(
      `${bad}: reports[0].supersedes: "r0"; names no report of this record; accepted: `,
    )
    expect(run.stderr).toMatch(/broken\.json: is not JSON; accepted: /)
    expect(run.stderr).toMatch(/none\.json: cannot be read \(ENOENT\); accepted: /)
  })
})

describe('what it is asked with', () => {
  it('wants an instant with offset, and options that it knows', () => {
    const noOffset = assess([fallFile, '--at', '2026-03-06T00:00:00'])
    refused(noOffset)
    expect(noOffset.lines).toHaveLength(1)
    expect(noOffset.stderr).toContain('--at: "2026-03-06T00:00:00"; accepted: an instant with offset')
    const unknown = assess(['--speed', 'high'])
    refused(unknown)
    expect(unknown.lines[0]).toContain("'--speed'")
    expect(unknown.lines[1]).toMatch(/^usage: /)
  })
  it('takes the time of the call where none is given', () => {
    const run = assess([feverFile])
    const { asOf } = JSON.parse(run.stdout) as Assessment
    expect(Math.abs(Date.parse(asOf) - Date.now())).toBeLessThan(60_000)
  })
})

describe('rules of one’s own', () => {
  const standard = assess(['--print-rules'])
  const rules = JSON.parse(standard.stdout) as {
    version: string
    thresholds: Record<string, { value: number }>
  }
  const changed = (name: string, value: number) => ({
    version: 'ours',
    thresholds: { ...rules.thresholds, [name]: { ...rules.thresholds[name], value } },
  })

  it('are taken as they are printed, and change the answer', () => {
    const same = assess([feverFile, '--at', at(6), '--rules', write('same.json', standard.stdout)])
    expect(JSON.parse(same.stdout)).toMatchObject({ ruleSet: '2026.1', urgency: 'within-1h' })
    const bolder = assess([
      feverFile,
      '--at',
      at(6),
      '--rules',
      write('bolder.json', changed('feverC', 38.5)),
    ])
    expect(JSON.parse(bolder.stdout)).toMatchObject({ ruleSet: 'ours', urgency: 'none' })
  })
  it('are refused out of range', () => {
    const hot = write('hot.json', changed('feverC', 45))
    const run = assess([feverFile, '--at', at(6), '--rules', hot])
    refused(run)
    expect(run.lines).toEqual([`${hot}: thresholds.feverC.value: 45; accepted: 37.5 to 39 °C`])
  })
})
