import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { now } from '../clock.ts'
import type { Assessment } from '../domain/assessment.ts'
import { Instant } from '../domain/instant.ts'
import type { PatientRecord } from '../domain/record.ts'
import type { RuleSet } from '../domain/ruleset.ts'
import { assess } from '../rules/assess.ts'
import { readRecord } from '../rules/read-record.ts'
import { parseRuleSet, RuleSetError, standardRuleSet } from '../rules/thresholds.ts'

const USAGE =
  'usage: npm run --silent assess -- FILE… [--at INSTANT] [--rules FILE] | --print-rules   (FILE: a record as JSON, or - for standard input)'

/** What the command was given and cannot use; each line names the place, what is wrong and what is accepted. */
class Faults extends Error {
  constructor(readonly lines: string[]) {
    super(lines.join('\n'))
  }
}

function readJson(file: string): unknown {
  let text: string
  try {
    text = readFileSync(file === '-' ? 0 : file, 'utf8')
  } catch (error) {
    throw new Faults([
      `${file}: cannot be read (${(error as NodeJS.ErrnoException).code}); accepted: a file with one JSON object`,
    ])
  }
  try {
    return JSON.parse(text)
  } catch {
    throw new Faults([`${file}: is not JSON; accepted: a file with one JSON object`])
  }
}

function readRules(file: string | undefined): RuleSet {
  if (file === undefined) return standardRuleSet
  try {
    return parseRuleSet(readJson(file))
  } catch (error) {
    if (error instanceof RuleSetError) throw new Faults(error.faults.map((fault) => `${file}: ${fault}`))
    throw error
  }
}

function readRecords(files: string[]): PatientRecord[] {
  const lines: string[] = []
  const records: PatientRecord[] = []
  for (const file of files) {
    try {
      const { record, faults } = readRecord(readJson(file))
      if (record) records.push(record)
      for (const fault of faults)
        lines.push(
          `${file}: ${fault.field}: ${'value' in fault ? `${JSON.stringify(fault.value)}; ` : ''}${fault.message}`,
        )
    } catch (error) {
      if (!(error instanceof Faults)) throw error
      lines.push(...error.lines)
    }
  }
  if (lines.length > 0) throw new Faults(lines)
  return records
}

/** The assessment as the command prints it: the documented fields alone, with both sentences of a finding in `says`. */
function printed(assessment: Assessment): object {
  return {
    ...assessment,
    findings: assessment.findings.map(({ ends, threshold: { unit: _, ...threshold }, ...finding }) => ({
      ...finding,
      says: `${finding.says} ${ends}`,
      threshold,
    })),
    drains: assessment.drains.map(({ drain, baselineMlPerDay, days }) => ({ drain, baselineMlPerDay, days })),
  }
}

function options() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: { at: { type: 'string' }, rules: { type: 'string' }, 'print-rules': { type: 'boolean' } },
    })
  } catch (error) {
    throw new Faults([(error as Error).message, USAGE])
  }
}

function run(): string {
  const { values, positionals: files } = options()
  if (values['print-rules']) return `${JSON.stringify(readRules(values.rules), null, 2)}\n`
  if (files.length === 0) throw new Faults([USAGE])
  const at = values.at ?? now().toISOString()
  if (!Instant.safeParse(at).success)
    throw new Faults([
      `--at: ${JSON.stringify(at)}; accepted: an instant with offset, such as 2026-03-02T08:05:00-07:00`,
    ])
  const rules = readRules(values.rules)
  const answers = readRecords(files).map((record) => printed(assess(record, rules, at)))
  const [only] = answers
  if (answers.length === 1) return `${JSON.stringify(only, null, 2)}\n`
  return answers.map((answer) => `${JSON.stringify(answer)}\n`).join('')
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error // whoever read has gone; there is nobody left to tell
})

try {
  process.stdout.write(run())
} catch (error) {
  if (!(error instanceof Faults)) throw error
  process.stderr.write(`${error.lines.join('\n')}\n`)
  process.exitCode = 2
}
