/** The parts of the house. `clock` is lib/clock.ts; the files that Next wants at the root count to a part, too. */
export type Zone =
  | 'domain'
  | 'clock'
  | 'rules'
  | 'simulate'
  | 'store'
  | 'access'
  | 'notify'
  | 'assessment'
  | 'intake'
  | 'worklist'
  | 'audit'
  | 'commands'
  | 'http'
  | 'client'
  | 'app'

type Rights = {
  /** The zones that it may import, besides itself. Whatever is not named is refused. */
  zones: readonly Zone[]
  /** The packages that it may import, where only a few will do; otherwise any that is not reserved below. */
  packages?: readonly string[]
  /** Pure: the same question always has the same answer, so no chance, no environment, no machine's zone. */
  pure?: true
}

const composing: readonly Zone[] = ['domain', 'rules', 'store', 'access', 'notify', 'assessment', 'clock']

/** Who may import whom: the arrows of docs/architecture.md. */
export const rights: Record<Zone, Rights> = {
  domain: { zones: [], packages: ['zod'], pure: true },
  clock: { zones: [], packages: ['node:fs'] },
  rules: { zones: ['domain'], packages: ['simple-statistics', 'temporal-polyfill'], pure: true },
  simulate: { zones: ['domain'], packages: ['simple-statistics', 'temporal-polyfill'], pure: true },
  store: { zones: ['domain', 'clock'] },
  access: { zones: ['domain', 'store', 'clock'] },
  notify: { zones: ['domain', 'store', 'clock'] },
  assessment: { zones: ['domain', 'rules', 'store', 'notify', 'clock'] },
  intake: { zones: composing },
  worklist: { zones: composing },
  audit: { zones: composing },
  commands: {
    zones: [...composing, 'simulate', 'intake', 'worklist', 'audit', 'http', 'client'],
  },
  http: { zones: ['domain', 'access', 'clock'] },
  client: { zones: ['domain'], packages: ['react', '@tanstack/react-query', 'idb', 'zod'] },
  app: { zones: ['domain', 'intake', 'worklist', 'audit', 'access', 'http', 'client', 'clock'] },
}

/** Packages that belong to some zones only, by the beginning of their name. */
export const reserved: readonly { packages: readonly string[]; zones: readonly Zone[]; why: string }[] = [
  {
    packages: ['@prisma/', 'prisma', 'better-sqlite3', 'better-auth/adapters/prisma'],
    zones: ['store'],
    why: 'only lib/store touches Prisma and the database',
  },
  {
    packages: ['next', 'react', 'react-dom', '@tanstack/', 'echarts'],
    zones: ['app', 'http', 'client'],
    why: 'only app, lib/http and lib/client know the framework',
  },
]

/** The files that read a clock, each for one reason. Everything else is given the time. */
export const clocks: readonly string[] = [
  'lib/clock.ts', // the server's time
  'lib/client/browser-clock.ts', // the device's time, for what is shown or suggested
  'app/downtime/worker/worker.js', // the device's time, where no server can be asked
  'lib/commands/setup/clock.mjs', // for the commands that run before anything is installed
]

/** The zone of a file, by its path from the repository's root; null if it lies in none. */
export function zoneOf(path: string): Zone | null {
  if (path === 'lib/clock.ts') return 'clock'
  if (path === 'instrumentation.ts') return 'commands' // it starts what runs in the server's process
  if (path.startsWith('app/') || /^(proxy|instrumentation-client)\.ts$/.test(path)) return 'app'
  const folder = /^lib\/([^/]+)\//.exec(path)?.[1]
  return folder !== undefined && folder in rights && folder !== 'clock' && folder !== 'app'
    ? (folder as Zone)
    : null
}
