import { type ChildProcess, spawn } from 'node:child_process'
import path from 'node:path'
import { now } from '../../clock.ts'
import { write } from '../../store/index.ts'
import { endReplay, noteProgress } from '../../store/replays.ts'
import { stored } from '../../store/rows.ts'
import type { Said } from './process.ts'
import type { Run } from './task.ts'

/** Between two notes of how far it is, and between two signs of life while nothing gets done. */
const NOTE_MS = 500
const BEAT_MS = 10_000
/** Where it stands from the root of the project, from which the server is started. */
const PROCESS = 'lib/audit/replay/process.ts'
/** What the memory of its own thread may grow to: as of a worker (lib/audit/replay/run.ts). */
export const NODE_OPTIONS = ['--max-old-space-size=128', '--max-semi-space-size=16', '--import', 'tsx']

const KEY = Symbol.for('outflow.replays')
type Running = { child: ChildProcess; over: Promise<void> }
const shared = globalThis as typeof globalThis & { [KEY]?: Map<string, Running> }

/** One list per process, on globalThis: a server bundles this file more than once. */
function running(): Map<string, Running> {
  shared[KEY] ??= new Map()
  return shared[KEY]
}

/**
 * Starts a replay in a process of its own, so that nothing that it does can hold up an answer, and keeps its progress
 * and its end. The process reads the store and writes nothing.
 */
export function launch(id: string, run: Run): void {
  const file = path.join(/* turbopackIgnore: true */ process.cwd(), PROCESS)
  const child = spawn(process.execPath, [...NODE_OPTIONS, file], {
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    serialization: 'advanced',
  })
  const over = follow(id, child).finally(() => running().delete(id))
  running().set(id, { child, over })
  child.send(run)
}

async function follow(id: string, child: ChildProcess): Promise<void> {
  let said = { done: 0, total: 0 }
  let notedMs = Number.NEGATIVE_INFINITY
  let last: Said | null = null
  let complaint = ''
  let writing: Promise<unknown> = Promise.resolve()
  const note = () => {
    const at = now()
    notedMs = at.getTime()
    writing = writing
      .then(() => write((tx) => noteProgress(tx, id, said, stored(at))))
      .then((isWanted) => {
        if (!isWanted) child.kill()
      })
      // A store that is busy for a while stops no replay; the next note is soon enough.
      .catch(() => undefined)
  }
  const beat = setInterval(note, BEAT_MS)
  beat.unref()
  child.stderr?.on('data', (text: Buffer) => {
    complaint = `${complaint}${text}`.slice(-2000)
  })
  child.on('message', (message: Said) => {
    if (message.kind !== 'progress') last = message
    else {
      said = message
      if (now().getTime() - notedMs >= NOTE_MS) note()
    }
  })
  await new Promise<void>((resolve) => {
    child.once('error', (error) => {
      complaint = error.message
      resolve()
    })
    child.once('close', () => resolve())
  })
  clearInterval(beat)
  await writing
  const end = endOf(last, complaint)
  await write(async (tx) => {
    const at = stored(now())
    await noteProgress(tx, id, said, at)
    await endReplay(tx, id, end, at)
  })
}

function endOf(last: Said | null, complaint: string) {
  if (last?.kind === 'done') return { state: 'done' as const, result: last.result }
  const why = last?.kind === 'failed' ? last.why : complaint.trim().split('\n').at(-1)
  return { state: 'failed' as const, trouble: why || 'Its process ended before its work was done.' }
}

/** Stops the process of a replay, if it runs here. */
export function stop(id: string): void {
  running().get(id)?.child.kill()
}

/** Resolves when a replay that runs here is over and its end is kept. */
export async function settled(id: string): Promise<void> {
  await running().get(id)?.over
}
