import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { createInterface } from 'node:readline/promises'
import { earliestToday } from './clock.mjs'
import { run } from './processes.mjs'
import { Refusal } from './refusal.mjs'
import { root } from './root.mjs'

/**
 * What the loader of the demo scenario leaves beside the database.
 * @typedef {{ role: string, name: string, email: string, password: string }} SignIn
 * @typedef {{ signIns: SignIn[], patientLink: string, endsOn: string }} Demo
 */

/** The demo scenario that was loaded beside this database, if any. @param {string} folder @returns {Demo | null} */
export function demoIn(folder) {
  const file = path.join(folder, 'demo.json')
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null
}

/**
 * Loads the demo scenario unless it was; the loader leaves a database that holds anything alone.
 * @param {string} folder @param {Record<string, string>} [env]
 */
export async function loadDemo(folder, env) {
  if (demoIn(folder) === null) await loader([], 'The demo scenario could not be loaded', env)
}

/** Offers to move a demo scenario that ended before today to today. @param {Demo} demo */
export async function offerToday({ endsOn }) {
  if (endsOn >= earliestToday()) return
  console.log(`The demo scenario ends on ${endsOn}, so its worklist shows old deadlines.`)
  if (!process.stdin.isTTY || !process.stdout.isTTY) {
    console.log('To move its dates to today: npm run demo -- --to-today')
    return
  }
  const ask = createInterface({ input: process.stdin, output: process.stdout })
  const answer = await ask.question('Move its dates to today? [Y/n] ')
  ask.close()
  if (/^(y(es)?)?$/i.test(answer.trim())) await loader(['--to-today'], 'The dates could not be moved')
}

/** @param {string[]} args @param {string} otherwise @param {Record<string, string>} [env] */
async function loader(args, otherwise, env) {
  const tsx = path.join(root, 'node_modules/tsx/dist/cli.mjs')
  const command = [process.execPath, tsx, 'lib/commands/load-demo.ts', ...args]
  const { ok } = await run(command, { output: 'show', env })
  if (!ok) throw new Refusal(`${otherwise}: the reason stands above.`)
}
