import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { now } from '../clock.ts'
import { parseRuleSet, standardRuleSet } from '../rules/thresholds.ts'
import { eventFigures, findingFigures, loadFigures, safetyFigures, wayFigures } from './evaluate/figures.ts'
import { tasksOf } from './evaluate/panels.ts'
import { progressBar } from './evaluate/progress.ts'
import { runPanels } from './evaluate/run-panels.ts'
import { slowChangeSections } from './evaluate/slow-change.ts'
import { asText, notes, type Section } from './evaluate/text.ts'

const USAGE = `npm run evaluate -- [--patients N] [--days D] [--seed S] [--rules FILE] [--json]
npm run evaluate -- --slow-change [--patients N] [--seed S] [--json]`

/** Thresholds were chosen on seeds from 1,000,000 up; figures are shown on these. */
const SHOWN_FROM_SEED = 20_260

function whole(text: string | undefined, otherwise: number, name: string, most: number): number {
  if (text === undefined) return otherwise
  const value = Number(text)
  if (!Number.isInteger(value) || value < 1 || value > most)
    throw new RangeError(`--${name} is ${text}; accepted: a whole number from 1 to ${most}`)
  return value
}

async function sectionsOf(values: Record<string, string | boolean | undefined>): Promise<Section[]> {
  const text = (name: string) => values[name] as string | undefined
  const seed = whole(text('seed'), SHOWN_FROM_SEED, 'seed', 1e9)
  if (values['slow-change'])
    return slowChangeSections(whole(text('patients'), 400, 'patients', 100_000), seed)
  const patients = whole(text('patients'), 2000, 'patients', 1_000_000)
  const days = whole(text('days'), 60, 'days', 366)
  const file = text('rules')
  const rules = file ? parseRuleSet(JSON.parse(readFileSync(file, 'utf8'))) : standardRuleSet
  const progress = progressBar('evaluate', patients)
  const tallies = await runPanels(tasksOf(patients, seed), { days, rules }, progress)
  progress.end()
  return [
    {
      title: `What must not be missed (rule set ${rules.version}, ${patients} patients × ${days} days, seeds from ${seed})`,
      note: notes.safety,
      figures: safetyFigures(tallies),
    },
    { title: 'True events', note: notes.events, figures: eventFigures(tallies) },
    { title: 'Findings', note: notes.findings, figures: findingFigures(tallies) },
    {
      title: 'The nurse’s day, for a panel of 100 patients, by share of days with a report',
      note: notes.load,
      figures: loadFigures(tallies),
    },
    { title: 'Beside simpler ways', note: notes.ways, figures: wayFigures(tallies) },
  ]
}

try {
  const { values } = parseArgs({
    options: {
      patients: { type: 'string' },
      days: { type: 'string' },
      seed: { type: 'string' },
      rules: { type: 'string' },
      json: { type: 'boolean' },
      'slow-change': { type: 'boolean' },
      help: { type: 'boolean' },
    },
  })
  if (values.help) console.log(USAGE)
  else {
    const sections = await sectionsOf(values)
    const figures = sections.flatMap((section) => section.figures)
    console.log(
      values.json
        ? JSON.stringify({ command: 'evaluate', at: now().toISOString(), figures })
        : asText(sections),
    )
  }
} catch (error) {
  console.error(`evaluate: ${error instanceof Error ? error.message : String(error)}\n${USAGE}`)
  process.exitCode = 2
}
