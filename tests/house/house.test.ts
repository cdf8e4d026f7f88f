import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, describe, expect, it } from 'vitest'
import { faultsOfHouse, sourceFiles } from './faults.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const planted: string[] = []

/** A house of its own in a temporary folder, with these files in it. */
function plant(files: Record<string, string>): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'house-'))
  planted.push(folder)
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(path.dirname(path.join(folder, file)), { recursive: true })
    writeFileSync(path.join(folder, file), text)
  }
  return folder
}

afterEach(() => {
  for (const folder of planted.splice(0)) rmSync(folder, { recursive: true })
})

describe('this repository', () => {
  it('keeps the house rules in every file', () => {
    expect(faultsOfHouse(root)).toEqual([])
  })

  it('was looked at: the files are found', () => {
    expect(sourceFiles(root)).toContain('lib/clock.ts')
    expect(sourceFiles(root).filter((file) => file.startsWith('lib/domain/')).length).toBeGreaterThan(5)
  })
})

describe('a planted import is refused', () => {
  const targets = {
    'lib/domain/words.ts': '',
    'lib/store/index.ts': '',
    'lib/rules/assess.ts': '',
    'lib/worklist/index.ts': '',
    'lib/clock.ts': '',
    'lib/client/keys.ts': '',
    'tests/builders.ts': '',
  }
  const refused: [string, string, string][] = [
    ['lib/domain/a.ts', "import { x } from '../rules/assess.ts'", 'domain may not import rules'],
    ['lib/domain/a.ts', "import { x } from 'temporal-polyfill'", 'domain may not import temporal-polyfill'],
    ['lib/rules/a.ts', "import { x } from '../store/index.ts'", 'rules may not import store'],
    ['lib/rules/a.ts', "import type { X } from '../store/index.ts'", 'rules may not import store'],
    ['lib/rules/a.ts', "export * from '../store/index.ts'", 'rules may not import store'],
    ['lib/rules/a.ts', "export const x = () => import('../store/index.ts')", 'rules may not import store'],
    ['lib/rules/a.ts', "export type X = import('../store/index.ts').X", 'rules may not import store'],
    ['lib/rules/a.ts', "import { now } from '../clock.ts'", 'rules may not import clock'],
    ['lib/rules/a.ts', "import { readFileSync } from 'node:fs'", 'rules may not import node:fs'],
    ['lib/rules/series/a.ts', "import { x } from 'next/headers'", 'rules may not import next/headers'],
    ['lib/simulate/a.ts', "import { x } from '../rules/assess.ts'", 'simulate may not import rules'],
    ['lib/store/a.ts', "import { x } from '../rules/assess.ts'", 'store may not import rules'],
    ['lib/access/a.ts', "import { x } from '../worklist/index.ts'", 'access may not import worklist'],
    ['lib/intake/a.ts', "import { x } from '../worklist/index.ts'", 'intake may not import worklist'],
    ['lib/http/a.ts', "import { x } from '../store/index.ts'", 'http may not import store'],
    ['lib/client/a.ts', "import { x } from '../clock.ts'", 'client may not import clock'],
    ['app/page.tsx', "import { x } from '@/lib/store/index.ts'", 'app may not import store'],
    ['app/page.tsx', "import { x } from '../lib/store/index.ts'", 'app may not import store'],
    ['app/page.tsx', "import { x } from '@/lib/rules/assess'", 'app may not import rules'],
    ['proxy.ts', "import { x } from './lib/rules/assess.ts'", 'app may not import rules'],
    ['lib/worklist/a.ts', "import { x } from '@prisma/client'", 'only lib/store touches Prisma'],
    ['lib/commands/a.ts', "import D from 'better-sqlite3'", 'only lib/store touches Prisma'],
    ['app/page.tsx', "const { x } = require('@prisma/client')", 'only lib/store touches Prisma'],
    ['lib/worklist/a.ts', "import { x } from 'react'", 'know the framework'],
    ['lib/intake/a.ts', "import { x } from '../domain/words'", 'no such file'],
    ['lib/intake/a.ts', "import { x } from '@/lib/domain/words.ts'", 'imports are relative'],
    ['lib/intake/a.ts', "import { x } from '../../tests/builders.ts'", 'lies in no part of the house'],
    ['lib/intake/a.ts', "export const x = (n: string) => import('../' + n)", 'by a name that is computed'],
    ['lib/commands/a.mjs', "import { x } from 'zod'", 'before packages are installed'],
    ['lib/commands/setup/a.mjs', "import { x } from 'zod'", 'before packages are installed'],
    ['lib/helpers/a.ts', 'export const x = 1', 'lies in no part of the house'],
  ]
  it.each(refused)('%s: %s', (file, text, says) => {
    const faults = faultsOfHouse(plant({ ...targets, [file]: text }))
    expect(faults).toHaveLength(1)
    expect(faults[0]).toContain(file)
    expect(faults[0]).toContain(says)
  })
})

describe('a planted look at the clock is refused', () => {
  it.each([
    'export const t = Date.now()',
    'export const t = new Date()',
    'export const t = new Date',
    'export const t = new globalThis.Date()',
    "export const t = globalThis['Date'].now()",
    'export const t = Date()',
    'export const clock = Date',
    'const { now } = Date\nexport { now }',
    'export const make = (of = Date) => new of()',
    'export const t = performance.now()',
    "import { performance } from 'node:perf_hooks'\nexport const t = performance.now()",
    "import { Temporal } from 'temporal-polyfill'\nexport const t = Temporal.Now.instant()",
    "import { Temporal as T } from 'temporal-polyfill'\nexport const t = T.Now.instant()",
    'export const t = process.hrtime.bigint()',
    "export const t = new Intl.DateTimeFormat('en').format()",
  ])('%s', (text) => {
    for (const file of ['lib/worklist/a.ts', 'app/page.tsx']) {
      const faults = faultsOfHouse(plant({ [file]: text }))
      expect(faults.length, file).toBeGreaterThan(0)
      for (const fault of faults) expect(fault).toContain('reads the clock')
    }
  })

  it('in rules and domain too', () => {
    for (const file of ['lib/rules/a.ts', 'lib/domain/a.ts', 'lib/simulate/a.ts']) {
      expect(faultsOfHouse(plant({ [file]: 'export const t = Date.now()' }))).toHaveLength(1)
    }
  })

  it('but not in lib/clock.ts, nor in the two clocks named beside it', () => {
    for (const file of ['lib/clock.ts', 'lib/client/browser-clock.ts']) {
      expect(faultsOfHouse(plant({ [file]: 'export const t = new Date()' }))).toEqual([])
    }
  })
})

describe('planted chance or environment is refused in domain, rules and simulate', () => {
  it.each([
    'export const x = Math.random()',
    'export const x = crypto.randomUUID()',
    'export const x = globalThis.crypto.randomUUID()',
    "import { randomUUID } from 'node:crypto'\nexport const x = randomUUID()",
    'export const x = process.env.THRESHOLD',
    "export const x = globalThis['process'].env.THRESHOLD",
    'export const x = import.meta.url',
    "export const x = fetch('/')",
    'export const x = new Date(2026, 2, 8)',
    'export const x = (d: Date) => d.getHours()',
    'export const x = (n: number) => n.toLocaleString()',
  ])('%s', (text) => {
    for (const file of ['lib/domain/a.ts', 'lib/rules/findings/a.ts', 'lib/simulate/a.ts']) {
      expect(faultsOfHouse(plant({ [file]: text })).length, file).toBeGreaterThan(0)
    }
  })
})

describe('what the rules allow stays silent', () => {
  it('in every part', () => {
    const folder = plant({
      'lib/domain/words.ts': "import { z } from 'zod'\nexport const Word = z.string()",
      'lib/clock.ts': 'export const now = () => new Date(Date.now())',
      'lib/rules/a.ts':
        "import { Temporal } from 'temporal-polyfill'\nimport { Word } from '../domain/words.ts'\n" +
        'export const x = (at: string, d: unknown) => [new Date(Date.parse(at)), d instanceof Date, Word,\n' +
        '  Temporal.Instant.from(at), Math.max(1, 2), { Date: 1 }.Date]\n' +
        'export const of = (document: { process: number }): Date => new Date(document.process)',
      'lib/store/index.ts':
        "import { PrismaClient } from './generated/client.ts'\nimport { now } from '../clock.ts'\n" +
        "import Database from 'better-sqlite3'\nexport const x = [PrismaClient, now, Database]",
      'lib/store/generated/client.ts': 'export const PrismaClient = Date.now()',
      'lib/worklist/index.ts': "export { x } from '../store/index.ts'",
      'app/page.tsx':
        "import { x } from '@/lib/worklist/index.ts'\nimport './page.css'\nimport { y } from './row'\n" +
        'export default function Page() {\n  return <p title="Date.now()">{x}{y}</p>\n}',
      'proxy.ts':
        "import { NextResponse } from 'next/server'\nexport const proxy = () => NextResponse.next()",
    })
    expect(faultsOfHouse(folder)).toEqual([])
  })
})
