import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import path from 'node:path'
import { chanceOrEnvironment, clockReads } from './impure.ts'
import { readSource } from './source.ts'
import { clocks, reserved, rights, type Zone, zoneOf } from './zones.ts'

/** Every breach of the house rules under `root`, one line each: `file:line what is wrong`. */
export function faultsOfHouse(root: string): string[] {
  return sourceFiles(root).flatMap((file) => faultsOfFile(root, file))
}

/** The source files of lib and app and the root, as paths from the root; generated code is left out. */
export function sourceFiles(root: string): string[] {
  const inFolders = ['lib', 'app'].flatMap((folder) =>
    existsSync(path.join(root, folder))
      ? readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' }).map((file) =>
          path.posix.join(folder, file.split(path.sep).join('/')),
        )
      : [],
  )
  const atRoot = readdirSync(root).filter((file) => zoneOf(file) !== null)
  return [...inFolders, ...atRoot].filter(
    (file) =>
      /\.(tsx?|mjs|js|jsx|mts|cts|cjs)$/.test(file) &&
      !file.includes('/generated/') &&
      statSync(path.join(root, file)).isFile(), // a folder may be named as the address of a script
  )
}

function faultsOfFile(root: string, file: string): string[] {
  const zone = zoneOf(file)
  if (zone === null) return [`${file} lies in no part of the house`]
  const source = readSource(file, readFileSync(path.join(root, file), 'utf8'))
  const found = source.imports.flatMap(({ name, line }) => {
    const says = faultOfImport(root, file, zone, name)
    return says === null ? [] : [{ line, says }]
  })
  if (!clocks.includes(file)) {
    found.push(...clockReads(source).map(({ line, says }) => ({ line, says: `reads the clock: ${says}` })))
  }
  if (rights[zone].pure) {
    found.push(
      ...chanceOrEnvironment(source).map(({ line, says }) => ({
        line,
        says: `${zone} knows no chance and no environment: ${says}`,
      })),
    )
  }
  return found.map(({ line, says }) => `${file}:${line} ${says}`)
}

function faultOfImport(root: string, file: string, zone: Zone, name: string | null): string | null {
  if (name === null) return 'imports by a name that is computed'
  const local = name.startsWith('.') || name.startsWith('@/')
  if (!local) return beforeInstall.test(file) ? faultOfPlainNode(name) : faultOfPackage(zone, name)
  if (name.startsWith('@/') && zone !== 'app') return `imports ${name}: inside lib, imports are relative`

  const from = name.startsWith('@/') ? name.slice(2) : path.posix.join(path.posix.dirname(file), name)
  // Within app Next finds a file without its extension, or generates it; in lib the name is the file's own.
  if (zone !== 'app' && !existsSync(path.join(root, from))) {
    return `imports ${name}: no such file (inside lib, with its extension)`
  }
  const target = zoneOf(from)
  if (target === null) return `imports ${name}, which lies in no part of the house`
  if (target === zone || rights[zone].zones.includes(target)) return null
  return `${zone} may not import ${target} (${name})`
}

/** `npm start` and `npm test` and their helpers run before anything is installed: plain JavaScript. */
const beforeInstall = /^lib\/commands\/([^/]+\.mjs$|setup\/)/

function faultOfPlainNode(name: string): string | null {
  return name.startsWith('node:') ? null : `imports ${name}: this runs before packages are installed`
}

function faultOfPackage(zone: Zone, name: string): string | null {
  if (name === 'node:perf_hooks' || name === 'perf_hooks') return 'reads the clock: node:perf_hooks'
  const allowed = rights[zone].packages
  if (allowed) return allowed.some((known) => isOf(known, name)) ? null : `${zone} may not import ${name}`
  const rule = reserved.find(({ packages }) => packages.some((known) => isOf(known, name)))
  return rule && !rule.zones.includes(zone) ? `${zone} may not import ${name}: ${rule.why}` : null
}

const isOf = (known: string, name: string) =>
  known.endsWith('/') ? name.startsWith(known) : name === known || name.startsWith(`${known}/`)
