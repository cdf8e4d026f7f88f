import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
import path from 'node:path'
import { inForceOf } from '../../audit/replay/in-force.ts'
import { NODE_OPTIONS } from '../../audit/replay/launch.ts'
import type { Said } from '../../audit/replay/process.ts'
import type { Run } from '../../audit/replay/task.ts'
import { stopwatch } from '../../clock.ts'
import type { ReplayResult } from '../../domain/replay.ts'
import { standardRuleSet } from '../../rules/thresholds.ts'
import { closeStore } from '../../store/index.ts'
import type { Figure } from '../evaluate/figures.ts'
import type { Progress } from '../evaluate/progress.ts'
import { migrate } from '../setup/prisma.mjs'
import { root } from '../setup/root.mjs'
import { fillClinic } from './replay-panel.ts'

const ALL = 10_000
const DAYS = 90
const AIM_S = 120
const AIM_MB = 600
const START = Date.parse('2026-03-02T15:00:00Z')
const DAY_MS = 86_400_000

/**
 * How long a replay of ninety days takes, as the server runs it: in a process of its own, on all cores, behind everything
 * else. So processor time is judged, and by the wall it says what else ran. With fewer than ten thousand patients the time
 * is told for ten thousand, in proportion, with what it takes to begin counted once.
 */
export async function measureReplay(patients: number, progress: Progress): Promise<Figure[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'outflow-bench-'))
  const before = process.env.DATABASE_URL
  const url = `file:${path.join(folder, 'outflow.db')}`
  try {
    await migrate({ DATABASE_URL: url })
    process.env.DATABASE_URL = url
    await fillClinic(patients, DAYS, START, (done) => progress.at(done))
    await closeStore()
    progress.end()
    const small = await runOnce(url, runOf(START + 2 * DAY_MS, START + 3 * DAY_MS))
    const all = await runOnce(url, runOf(START, START + (DAYS - 1) * DAY_MS))
    if (all.result.unreadable > 0) throw new Error(`${all.result.unreadable} patients could not be replayed`)
    const forAll = (seconds: number, begin: number) =>
      patients >= ALL ? seconds : begin + ((seconds - begin) * ALL) / patients
    const cores = availableParallelism()
    const busy = forAll(all.processor, small.beginProcessor) / cores
    const size = patients >= ALL ? '' : `, from ${patients}`
    const round = (value: number) => Number(value.toPrecision(3))
    return [
      {
        ...{
          name: `replay-10000x90${size}`,
          value: round(busy),
          unit: `s of processor time on each of ${cores}`,
        },
        ...{ low: null, high: null, aim: `< ${AIM_S}`, holds: busy < AIM_S },
      },
      {
        ...{ name: `replay-10000x90-wall${size}`, value: round(forAll(all.seconds, small.begin)), unit: 's' },
        ...{ low: null, high: null, aim: null, holds: null },
      },
      {
        ...{
          name: `replay-10000x90-memory${size}`,
          value: all.megabytes === null ? null : Math.round(all.megabytes),
          unit: 'MB',
        },
        ...{ low: null, high: null, aim: `< ${AIM_MB}` },
        holds: all.megabytes === null ? null : all.megabytes < AIM_MB,
      },
      {
        ...{ name: 'replay-same-as-happened', value: all.result.agreement.same, unit: 'flags' },
        ...{ low: null, high: null, aim: 'all', holds: all.result.agreement.different === 0 },
      },
    ]
  } finally {
    await closeStore()
    if (before === undefined) delete process.env.DATABASE_URL
    else process.env.DATABASE_URL = before
    rmSync(folder, { recursive: true, force: true })
  }
}

/** The shipped rule set against one that calls a smaller fall a decline. */
function runOf(fromMs: number, untilMs: number): Run {
  const { thresholds, version } = standardRuleSet
  const ratio = thresholds.declineRatio
  if (!ratio) throw new Error('the rule set that ships has no declineRatio')
  return {
    ...{ clinicId: 'bench', zone: 'America/Denver', inForce: inForceOf([], untilMs) },
    draft: {
      version: `${version}-bench`,
      thresholds: { ...thresholds, declineRatio: { ...ratio, value: 0.7 } },
    },
    ...{ from: day(fromMs), until: day(untilMs), laterFrom: null },
    cutOff: new Date(START + DAYS * DAY_MS).toISOString(),
  }
}

const day = (ms: number) => new Date(ms).toISOString().slice(0, 10)

type Measured = {
  seconds: number
  processor: number
  /** Until the first patients were taken up. */
  begin: number
  beginProcessor: number
  /** The most memory that it had; null where the system does not tell. */
  megabytes: number | null
  result: ReplayResult
}

/** One replay, as the server starts it. Where the system does not tell a process's own time, the wall's stands for it. */
async function runOnce(url: string, run: Run): Promise<Measured> {
  const elapsed = stopwatch()
  const child = spawn(process.execPath, [...NODE_OPTIONS, 'lib/audit/replay/process.ts'], {
    ...{ cwd: root, env: { ...process.env, DATABASE_URL: url }, serialization: 'advanced' },
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  })
  child.send(run)
  let begin = 0
  let beginProcessor = 0
  let megabytes: number | null = null
  return new Promise((resolve, reject) => {
    child.on('message', (said: Said) => {
      if (said.kind === 'failed') return reject(new Error(said.why))
      const seconds = elapsed() / 1000
      const processor = processorSecondsOf(child.pid) ?? seconds
      // Of a process that has ended its memory is not told any more: with its last word it may have.
      megabytes = peakOf(child.pid) ?? megabytes
      if (said.kind === 'done')
        return resolve({ seconds, processor, begin, beginProcessor, megabytes, result: said.result })
      begin ||= seconds
      beginProcessor ||= processor
    })
    child.on('exit', () => reject(new Error('the replay ended before its work was done')))
  })
}

/** The most memory that a process ever had, as the system counts it; null where it does not tell. */
function peakOf(pid: number | undefined): number | null {
  const peak = /VmHWM:\s+(\d+) kB/.exec(told(pid, 'status'))?.[1]
  return peak === undefined ? null : Number(peak) / 1024
}

/** Clock ticks in a second, as Linux tells times of processes. */
const TICKS = 100

function processorSecondsOf(pid: number | undefined): number | null {
  // The fields after the name of the program, which may hold spaces: user and system time are the 12th and 13th.
  const fields = told(pid, 'stat').split(') ').at(-1)?.split(' ') ?? []
  const ticks = Number(fields[11]) + Number(fields[12])
  return Number.isFinite(ticks) ? ticks / TICKS : null
}

function told(pid: number | undefined, what: string): string {
  try {
    return readFileSync(`/proc/${pid}/${what}`, 'utf8')
  } catch {
    return '' // no such file on this system
  }
}
