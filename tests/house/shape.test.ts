import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { sourceFiles } from './faults.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))

it('every file of lib/rules has its mirror in tests/rules', () => {
  const missing = sourceFiles(root)
    .filter((file) => file.startsWith('lib/rules/'))
    .map((file) => file.replace(/^lib/, 'tests').replace(/\.ts$/, '.test.ts'))
    .filter((file) => !existsSync(path.join(root, file)))
  expect(missing).toEqual([])
})

it('the top level holds what the house has, and what a tool insists on finding there', () => {
  const house =
    'README.md DEVELOPERS.md LICENSE package.json tsconfig.json next.config.mjs prisma app lib tests e2e docs'
  const tools = 'package-lock.json proxy.ts instrumentation.ts instrumentation-client.ts'
  const made = 'node_modules next-env.d.ts' // not kept in the repository
  const allowed = new Set(`${house} ${tools} ${made}`.split(' '))
  expect(readdirSync(root).filter((name) => !name.startsWith('.') && !allowed.has(name))).toEqual([])
})

it('no source file has grown over 300 lines', () => {
  const lines = (file: string) => readFileSync(path.join(root, file), 'utf8').split('\n').length - 1
  expect(sourceFiles(root).filter((file) => lines(file) > 300)).toEqual([])
})
