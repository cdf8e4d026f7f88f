import { refusalOf } from '../http/problem.ts'
import { closeSignInClient, closeStore } from '../store/index.ts'
import { backupCommands } from './admin/backup.ts'
import { checkCommands } from './admin/checks.ts'
import { clinicCommands } from './admin/clinics.ts'
import { type Command, optionsOf, usageOf } from './admin/command.ts'
import { staffCommands } from './admin/staff.ts'

// `npm run admin -- COMMAND …`: exits 0 when all is well, 1 when a check found something, 2 on a wrong call.

const commands: Record<string, Command> = {
  ...clinicCommands,
  ...staffCommands,
  ...checkCommands,
  ...backupCommands,
}

const usage = () =>
  [
    'usage:',
    ...Object.entries(commands).flatMap(([name, command]) => [
      `  ${usageOf(name, command)}`,
      `      ${command.does}`,
    ]),
  ].join('\n')

async function main([name = '', ...args]: string[]): Promise<number> {
  const command = commands[name]
  if (!command) {
    console.error(usage())
    return 2
  }
  const { lines, ok } = await command.run(optionsOf(name, command, args))
  for (const line of lines) console.log(line)
  return ok ? 0 : 1
}

try {
  process.exitCode = await main(process.argv.slice(2))
} catch (error) {
  const refusal = refusalOf(error)
  if (!refusal) throw error
  console.error(refusal.detail)
  for (const { field, message } of refusal.faults) console.error(`  ${field} ${message}`)
  process.exitCode = 2
} finally {
  await closeSignInClient()
  await closeStore()
}
