import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { Assessment } from '../../lib/domain/assessment.ts'
import { FindingCode } from '../../lib/domain/words.ts'
import { assess } from '../../lib/rules/assess.ts'
import { readRecord } from '../../lib/rules/read-record.ts'
import { standardRuleSet } from '../../lib/rules/thresholds.ts'
import { pathsIn, recordFields, withValue } from './record-fields.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const text = (file: string) => readFileSync(`${root}/${file}`, 'utf8')
const page = text('docs/record-format.md')
const section = (title: string) => page.split(/^## /m).find((part) => part.startsWith(title)) ?? ''

/** The rows of a section's table, a list of cells each; the first is the path of a field. */
const rowsOf = (title: string) =>
  section(title)
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) => line.split('|').slice(1, -1))
    .map((cells) => cells.map((cell) => cell.trim().replace(/^`(.*)`$/, '$1')))

const [, file = '', at = ''] = /assess -- (\S+\.json) --at (\S+)/.exec(section('An example')) ?? []
const example: unknown = JSON.parse(text(file))
const read = (input: unknown) => {
  const { record, faults } = readRecord(input)
  expect(faults).toEqual([])
  if (!record) throw new Error('the record was refused')
  return record
}
const isJson = /^(null|false|0|\[\]|\{\}|".*")$/
const documented = rowsOf('The record').map(
  ([path = '', , , accepted = '', mayBe = '', counts = '', shown = '']) => ({
    path,
    accepted,
    mayBe,
    counts,
    shown,
  }),
)

describe('the fields of the record', () => {
  it('are all documented, and nothing else is', () => {
    const paths = (list: readonly { path: string }[]) => list.map(({ path }) => path).sort()
    expect(paths(documented)).toEqual(paths(recordFields()))
  })
  it.each(recordFields().map((field) => [field.path, field] as const))(
    '%s: as the schema has it',
    (path, field) => {
      const row = documented.find((one) => one.path === path)
      expect(row?.mayBe).toBe(field.mayBe)
      if (field.range) expect(row?.accepted).toBe(`${field.range.low} to ${field.range.high}`)
      if (field.words.length > 0 && path !== 'staffEvents[].code')
        expect(row?.accepted).toBe(field.words.join(', '))
    },
  )
  it('are all in the example', () => {
    expect([...new Set(pathsIn(example))].sort()).toEqual(documented.map(({ path }) => path).sort())
  })
  it.each(documented.filter(({ shown }) => shown !== ''))(
    '$path: its example is accepted',
    ({ path, shown }) => {
      read(withValue(example, path, JSON.parse(shown)))
    },
  )
  it.each(documented.filter(({ path, counts }) => isJson.test(counts) && !path.startsWith('staffEvents[].')))(
    '$path: left out, it counts as $counts',
    ({ path, counts }) => {
      const judged = (value: unknown) => assess(read(withValue(example, path, value)), standardRuleSet, at)
      expect(judged(JSON.parse(counts))).toEqual(judged(undefined))
    },
  )
  it('of a drain’s own thresholds have the ranges of the rule set', () => {
    for (const { path, accepted } of documented.filter((row) => row.path.includes('.overrides.'))) {
      const threshold = standardRuleSet.thresholds[path.split('.').at(-1) ?? '']
      expect(accepted, path).toBe(`${threshold?.min} to ${threshold?.max}`)
    }
  })
})

describe('the example', () => {
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'lib/commands/assess.ts', file, '--at', at], {
    cwd: root,
    encoding: 'utf8',
  })
  const printed: unknown = JSON.parse(run.stdout)

  it('is a record that the rules take, and their answer has the documented shape', () => {
    const assessment = assess(read(example), standardRuleSet, at)
    expect(Assessment.safeParse(assessment).error).toBeUndefined()
    expect(printed).toMatchObject({ urgency: assessment.urgency, actBy: assessment.actBy })
  })
  it('is answered by the command as the page shows', () => {
    const [, shown = ''] = /```json\n(.*?)```/s.exec(section('An example')) ?? []
    expectWithin(JSON.parse(shown), printed)
  })
  it('has an answer of the documented fields', () => {
    expect([...new Set(pathsIn(printed))].sort()).toEqual(
      rowsOf('The answer')
        .map(([path]) => path)
        .sort(),
    )
  })
})

it('every finding is listed', () => {
  const listed = [...(section('The answer').split('Codes:')[1] ?? '').matchAll(/`([a-z-]+)`/g)]
  expect(listed.map(([, code]) => code)).toEqual(FindingCode.options)
})

it.each(['docs/record-format.md', 'docs/operations.md', 'docs/security.md', 'README.md', 'DEVELOPERS.md'])(
  'every JSON block of %s can be read',
  (name) => {
    for (const [, block = ''] of text(name).matchAll(/```json\n(.*?)```/gs)) JSON.parse(block)
  },
)

/** Whether a shortened answer is part of the whole: of a list any items, of an object all its fields. */
function expectWithin(part: unknown, whole: unknown): void {
  if (Array.isArray(part)) {
    for (const item of part) {
      const [name] = Object.keys(item)
      const of = (whole as Record<string, unknown>[]).find((one) => name && one[name] === item[name])
      if (item.evidence || item.days) expectWithin(item, of)
      else expect(whole).toContainEqual(item)
    }
  } else if (part !== null && typeof part === 'object') {
    expect(Object.keys(part)).toEqual(Object.keys(whole as object))
    for (const [name, value] of Object.entries(part))
      expectWithin(value, (whole as Record<string, unknown>)[name])
  } else expect(part).toBe(whole)
}
