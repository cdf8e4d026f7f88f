import { spawn } from 'node:child_process'
import { root } from './root.mjs'

// Each program runs in a process group of its own, so that ending it ends what it has started, too.

/** @type {Set<import('node:child_process').ChildProcess>} */
const running = new Set()

let leaving = false

/** Whether this command was interrupted and is on its way out. */
export const isLeaving = () => leaving

/**
 * Runs a program to its end. Output goes to this terminal ('show') or is kept and handed back ('keep').
 * @param {string[]} command
 * @param {{ env?: Record<string, string>, output?: 'show' | 'keep', minutes?: number }} [options]
 * @returns {Promise<{ ok: boolean, said: string }>}
 */
export function run(command, { env = {}, output = 'keep', minutes = 15 } = {}) {
  const child = start(command, { env, output })
  let said = ''
  for (const stream of [child.stdout, child.stderr]) {
    stream?.setEncoding('utf8').on('data', (text) => {
      said += text
    })
  }
  return new Promise((resolve) => {
    const limit = setTimeout(() => {
      said += `\nstopped: not done after ${minutes} minutes\n`
      signalGroup(child, 'SIGKILL')
    }, minutes * 60_000)
    const end = (/** @type {boolean} */ ok) => {
      clearTimeout(limit)
      signalGroup(child, 'SIGKILL') // what it may have left behind
      if (!leaving) resolve({ ok, said }) // or else nothing is to follow
    }
    child.on('error', (error) => {
      said += `${error.message}\n`
      end(false)
    })
    child.on('close', (code) => end(code === 0))
  })
}

/**
 * Starts a program that stays.
 * @param {string[]} command
 * @param {{ env?: Record<string, string>, output?: 'show' | 'keep' }} [options]
 */
export function start([program = '', ...args], { env = {}, output = 'show' } = {}) {
  const stdio = output === 'show' ? 'inherit' : 'pipe'
  const child = spawn(program, args, {
    cwd: root,
    env: { ...process.env, ...env },
    // Standard input stays closed: a program in a group of its own must not read the terminal.
    stdio: ['ignore', stdio, stdio],
    detached: process.platform !== 'win32',
    shell: process.platform === 'win32' && program === 'npm', // npm.cmd
  })
  running.add(child)
  child.on('exit', () => running.delete(child))
  return child
}

/** Ends everything that was started: asked first, then, after some seconds, made to. */
export async function endAll(graceMs = 5000) {
  const children = [...running]
  for (const child of children) signalGroup(child, 'SIGTERM')
  const gone = Promise.all(children.map((child) => new Promise((done) => child.once('exit', done))))
  const late = new Promise((done) => setTimeout(done, graceMs).unref())
  await Promise.race([gone, late])
  for (const child of children) signalGroup(child, 'SIGKILL')
}

/** Ends everything and leaves when this command is interrupted. @param {() => void} [tidy] */
export function endAllWhenInterrupted(tidy = () => {}) {
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) {
    process.once(signal, () => {
      leaving = true
      endAll().finally(() => {
        tidy()
        process.exit(signal === 'SIGINT' ? 130 : 143)
      })
    })
  }
  process.on('exit', () => {
    for (const child of running) signalGroup(child, 'SIGKILL')
  })
}

/** @param {import('node:child_process').ChildProcess} child @param {NodeJS.Signals} signal */
function signalGroup(child, signal) {
  if (child.pid === undefined) return
  try {
    if (process.platform === 'win32') child.kill(signal)
    else process.kill(-child.pid, signal)
  } catch {
    // the whole group is gone already
  }
}
