import { parseArgs } from 'node:util'
import { now } from '../clock.ts'
import { measureCheckIn } from './bench/check-in.ts'
import { ruleCount } from './bench/general-engine.ts'
import { measure } from './bench/measure.ts'
import { measurePage } from './bench/patient-page.ts'
import { measureFirstChart } from './bench/patient-page-browser.ts'
import { measureReplay } from './bench/replay.ts'
import { LIVED } from './bench/replay-panel.ts'
import { measureRedraw } from './bench/timeline-redraw.ts'
import { measureWorklist } from './bench/worklist.ts'
import type { Figure } from './evaluate/figures.ts'
import { progressBar } from './evaluate/progress.ts'

const usage =
  'npm run bench -- [--rounds N] [--patients N] [--visits N] [--replay-patients N] [--rules-only | --check-in-only | --worklist-only | --page-only | --replay-only] [--json]'

/** Visits of the patient's page in a browser that are measured. */
const FIRST_CHARTS = 7

function whole(text: string | undefined, otherwise: number, name: string): number {
  if (text === undefined) return otherwise
  const value = Number(text)
  if (!Number.isInteger(value) || value < 1 || value > 1_000_000)
    throw new RangeError(`--${name} is ${text}; accepted: a whole number from 1 to 1000000`)
  return value
}

function asText(figures: readonly Figure[]): string {
  const width = Math.max(...figures.map(({ name }) => name.length))
  const lines = figures.map(({ name, value, low, high, unit, aim, holds }) => {
    const range = low === null ? '' : ` (${low} to ${high})`
    const verdict = aim === null ? '' : `, aim ${aim}: ${holds ? 'holds' : 'DOES NOT HOLD'}`
    return `  ${name.padEnd(width)}  ${value}${range} ${unit}${verdict}`
  })
  return [
    'A 90-day record of one nephrostomy with 4 readings a day; standing: with three findings for a month (or a week).',
    'Growth: 360 days against 30, of the record and of what stands. Processor time; in brackets the smallest and the largest round.',
    `sum: a loop that only parses the same instants and sums by local day. general engine: json-rules-engine, ${ruleCount} rules over ready facts.`,
    'check-in: until the first question can be answered, on a slow phone (a quarter of the processor; 1.6 Mbit/s and 150 ms, at the edge 400 kbit/s and 400 ms).',
    'worklist: ten thousand rows in Chromium, from the choice until the rows are drawn; its script as it comes over the wire.',
    'page: a patient’s page of 400 days with 4 reports each, against 10 days, and against its own statements run raw; first chart: in Chromium, from the navigation. timeline-redraw: three drains of 400 days, from the choice of all days until they are drawn.',
    'replay: ninety days of ten thousand patients under two rule sets, in a process of its own; from fewer patients in proportion (--replay-patients 10000 runs them all).',
    ...lines,
  ].join('\n')
}

try {
  const { values } = parseArgs({
    options: {
      rounds: { type: 'string' },
      patients: { type: 'string' },
      visits: { type: 'string' },
      'rules-only': { type: 'boolean' },
      'check-in-only': { type: 'boolean' },
      'worklist-only': { type: 'boolean' },
      'page-only': { type: 'boolean' },
      'replay-only': { type: 'boolean' },
      'replay-patients': { type: 'string' },
      json: { type: 'boolean' },
      help: { type: 'boolean' },
    },
  })
  if (values.help) console.log(usage)
  else {
    const rounds = whole(values.rounds, 15, 'rounds')
    const patients = whole(values.patients, 10_000, 'patients')
    const size = { rounds, patients, warmUpMs: 400, roundMs: 120 }
    const progress = { panel: progressBar('panel', size.patients), turns: progressBar('turns', size.rounds) }
    const visits = whole(values.visits, 3, 'visits')
    const listRounds = 15
    const replayed = whole(values['replay-patients'], 2_000, 'replay-patients')
    const chosen = (
      ['rules-only', 'check-in-only', 'worklist-only', 'page-only', 'replay-only'] as const
    ).find((name) => values[name])
    const isWanted = (name: typeof chosen) => chosen === undefined || chosen === name
    const turns = { rounds, warmUpMs: 1500, roundMs: 400 }
    const figures = [
      ...(isWanted('rules-only') ? await measure(size, progress) : []),
      ...(isWanted('check-in-only') ? await measureCheckIn(visits, progressBar('visits', visits)) : []),
      ...(isWanted('worklist-only')
        ? await measureWorklist(listRounds, progressBar('worklist', listRounds))
        : []),
      ...(isWanted('page-only')
        ? [
            ...(await measurePage(turns, progressBar('page', rounds))),
            ...(await measureFirstChart(FIRST_CHARTS, progressBar('first chart', FIRST_CHARTS))),
            ...(await measureRedraw(listRounds, progressBar('redraw', listRounds))),
          ]
        : []),
      ...(isWanted('replay-only') ? await measureReplay(replayed, progressBar('replay', LIVED)) : []),
    ]
    console.log(
      values.json ? JSON.stringify({ command: 'bench', at: now().toISOString(), figures }) : asText(figures),
    )
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error), `\n${usage}`)
  process.exitCode = 2
}
