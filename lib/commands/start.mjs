// `npm start`: from a fresh clone to the running worklist. Does only what is not done yet, so that a second
// start is quick, and keeps whatever data there is.
import { build } from './setup/build.mjs'
import { stopwatch } from './setup/clock.mjs'
import { prepareDataFolder } from './setup/data-folder.mjs'
import { demoIn, loadDemo, offerToday } from './setup/demo.mjs'
import { requireNode } from './setup/node-version.mjs'
import { installPackages } from './setup/packages.mjs'
import { generateClient, migrate } from './setup/prisma.mjs'
import { endAll, endAllWhenInterrupted, isLeaving } from './setup/processes.mjs'
import { Refusal, runCommand } from './setup/refusal.mjs'
import { addressOf, requireFreePort, serve } from './setup/server.mjs'
import { welcome } from './setup/welcome.mjs'

const folder = process.env.NEXT_DIST_DIR ?? '.next'
const withDemo = process.env.DEMO !== 'off'

await runCommand(main)

async function main() {
  const seconds = stopwatch()
  requireNode()
  const address = addressOf(process.env)
  await requireFreePort(address)
  const data = prepareDataFolder(process.env)
  endAllWhenInterrupted()

  await installPackages()
  await Promise.all([migrate(), generateClient()])
  await Promise.all([buildScreens(), withDemo ? loadDemo(data) : null])
  const demo = withDemo ? demoIn(data) : null
  if (demo) await offerToday(demo)

  const server = await serve(folder, address)
  console.log(welcome({ address, demo: withDemo ? demoIn(data) : null, data, seconds: seconds() }))
  const code = await server.ended
  if (isLeaving()) return
  throw new Refusal(`The server has ended (${code}); what it said stands above.`)
}

async function buildScreens() {
  const { ok, said, built } = await build(folder)
  if (ok) return built && console.log('Screens built.')
  await endAll()
  console.error(said)
  throw new Refusal('The screens could not be built: the reason stands above.')
}
