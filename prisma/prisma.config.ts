import { mkdirSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'prisma/config'

// Run as `npx prisma … --config prisma/prisma.config.ts`.
const here = (name: string) => fileURLToPath(new URL(name, import.meta.url))

// The engine runs from npm's WebAssembly build (see schema-engine.mjs); on Windows, where that was not
// tried, Prisma fetches its native one.
if (process.platform !== 'win32') process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= here('./schema-engine.mjs')

// Said once more as an absolute path: the CLI would take a relative one from this folder, the server takes
// it from the repository's root.
const url = process.env.DATABASE_URL ?? 'file:./.data/outflow.db'
const file = path.resolve(here('..'), url.replace(/^file:/, ''))
mkdirSync(path.dirname(file), { recursive: true })

export default defineConfig({
  schema: here('./schema.prisma'),
  migrations: { path: here('./migrations') },
  datasource: { url: `file:${file}` },
})
