import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
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
 * How long a replay of ninety days takes, as the server runs it: in a process of its own, on all cores. With fewer than ten
 * thousand patients the time is told for ten thousand, in proportion, with what it takes to begin counted once.
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
    const { seconds, megabytes, result } = await runOnce(url, runOf(START, START + (DAYS - 1) * DAY_MS))
    if (result.unreadable > 0) throw new Error(`${result.unreadable} patients could not be replayed`)
    const whole = patients >= ALL ? seconds : small.begin + ((seconds - small.begin) * ALL) / patients
    const size = patients >= ALL ? '' : `, from ${patients}`
    return [
      {
        ...{ name: `replay-10000x90${size}`, value: Number(whole.toPrecision(3)), unit: 's' },
        ...{ low: null, high: null, aim: `< ${AIM_S}`, holds: whole < AIM_S },
      },
      {
        ...{ name: `replay-10000x90-memory${size}`, value: Math.round(megabytes), unit: 'MB' },
        ...{ low: null, high: null, aim: `< ${AIM_MB}`, holds: megabytes < AIM_MB },
      },
      {
        ...{ name: 'replay-same-as-happened', value: result.agreement.same, unit: 'flags' },
        ...{ low: null, high: null, aim: 'all', holds: result.agreement.different === 0 },
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

/** `begin`: until the first patients were taken up. Memory: the most that the process ever had, as the system counts it. */
async function runOnce(
  url: string,
  run: Run,
): Promise<{ seconds: number; begin: number; megabytes: number; result: ReplayResult }> {
  const elapsed = stopwatch()
  const child = spawn(process.execPath, [...NODE_OPTIONS, 'lib/audit/replay/process.ts'], {
    ...{ cwd: root, env: { ...process.env, DATABASE_URL: url }, serialization: 'advanced' },
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  })
  child.send(run)
  let begin = 0
  let megabytes = 0
  return new Promise((resolve, reject) => {
    child.on('message', (said: Said) => {
      if (said.kind === 'failed') return reject(new Error(said.why))
      megabytes = Math.max(megabytes, peakOf(child.pid))
      if (said.kind === 'progress') {
        begin ||= elapsed() / 1000
        return
      }
      resolve({ seconds: elapsed() / 1000, begin, megabytes, result: said.result })
    })
    child.on('exit', () => reject(new Error('the replay ended before its work was done')))
  })
}

function peakOf(pid: number | undefined): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8')
    return Number(/VmHWM:\s+(\d+) kB/.exec(status)?.[1] ?? 0) / 1024
  } catch {
    return 0 // no such file on this system: the memory is not known
  }
}
