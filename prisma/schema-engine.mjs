#!/usr/bin/env node
// Prisma's CLI wants a native schema engine, which it downloads when it first runs; a hospital's network
// seldom lets it. The same engine lies on npm as WebAssembly (@prisma/schema-engine-wasm, the version of
// `prisma` itself). This program puts it in the native one's place: it takes the same arguments and speaks
// the same JSON-RPC over standard input and output. prisma.config.ts points the CLI here. SQLite only.
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { createInterface } from 'node:readline'
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import { bindMigrationAwareSqlAdapterFactory, ColumnTypeEnum } from '@prisma/driver-adapter-utils'
import * as bindings from '@prisma/schema-engine-wasm/schema_engine_bg'

/** @typedef {import('@prisma/driver-adapter-utils').SqlDriverAdapter} Adapter */

/** @type {Adapter[]} Every connection made, to be closed at the end: the engine locks the file exclusively. */
const connections = []

await loadEngine()
const { command, datamodels, url } = readArguments(process.argv.slice(2))

if (command === 'version') console.log(`schema-engine-wasm ${bindings.version()}`)
else if (command === 'create-database') writeFileSync(databaseFile(), '', { flag: 'a' })
else if (command === 'can-connect-to-database') requireDatabase()
else serve()

async function loadEngine() {
  const folder = path.dirname(createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm'))
  const wasm = readFileSync(path.join(folder, 'schema_engine_bg.wasm'))
  const { instance } = await WebAssembly.instantiate(wasm, { './schema_engine_bg.js': bindings })
  bindings.__wbg_set_wasm(instance.exports)
  const start = /** @type {() => void} */ (instance.exports.__wbindgen_start)
  start()
  Object.assign(globalThis, {
    PRISMA_WASM_PANIC_REGISTRY: {
      set_message: (/** @type {string} */ text) => process.stderr.write(`${text}\n`),
    },
  })
}

/**
 * The arguments of the native engine: `--datamodels FILE…`, `--datasource JSON`, `cli COMMAND`. Whatever
 * else begins with two dashes takes one value that does not concern us.
 * @param {string[]} argv
 */
function readArguments(argv) {
  const read = { command: '', datamodels: /** @type {[string, string][]} */ ([]), url: '' }
  for (let i = 0; i < argv.length; i++) {
    const [name, value = ''] = [argv[i], argv[i + 1]]
    if (name === '--version') return { ...read, command: 'version' }
    if (name === '--datamodels') read.datamodels.push([value, readFileSync(value, 'utf8')])
    if (name === '--datasource') read.url = JSON.parse(value).url
    if (name === 'cli') read.command = value
    if (name === 'cli' || name?.startsWith('--')) i++
  }
  return read
}

function databaseFile() {
  return url.replace(/^file:/, '').replace(/\?.*$/, '')
}

/** The CLI asks whether the database can be reached; the answer is the exit code and, if not, a log line. */
function requireDatabase() {
  if (existsSync(databaseFile())) return
  const log = (/** @type {string} */ level, /** @type {object} */ fields) =>
    process.stderr.write(`${JSON.stringify({ level, fields, target: 'schema_engine::logger' })}\n`)
  log('INFO', { message: 'schema-engine (wasm)' }) // the CLI reads the last line and expects one before it
  log('ERROR', { message: `Database \`${databaseFile()}\` does not exist`, error_code: 'P1003' })
  process.exitCode = 1
}

/**
 * A factory of connections with two differences between the WASM engine and the native one put right.
 * @returns {import('@prisma/driver-adapter-utils').SqlMigrationAwareDriverAdapterFactory}
 */
function adapterFactory() {
  const factory = new PrismaBetterSqlite3({ url: url || ':memory:' }, { shadowDatabaseUrl: ':memory:' })
  return {
    provider: factory.provider,
    adapterName: factory.adapterName,
    connect: async () => withMigrationsTable(noted(await factory.connect())),
    connectToShadowDb: async () =>
      withWholeScripts(withMigrationsTable(noted(await factory.connectToShadowDb()))),
  }
}

/** @param {Adapter} adapter */
function noted(adapter) {
  connections.push(adapter)
  return adapter
}

/**
 * In a new database the table of applied migrations does not exist yet. The native engine takes that for an
 * empty one, the WASM engine for an error: so it is shown an empty one.
 * @param {Adapter} adapter
 */
function withMigrationsTable(adapter) {
  const { Int32, Text, DateTime } = ColumnTypeEnum
  const columns = {
    ...{ id: Text, checksum: Text, finished_at: DateTime, migration_name: Text, logs: Text },
    ...{ rolled_back_at: DateTime, started_at: DateTime, applied_steps_count: Int32 },
  }
  const none = { columnNames: Object.keys(columns), columnTypes: Object.values(columns), rows: [] }
  const queryRaw = adapter.queryRaw.bind(adapter)
  adapter.queryRaw = (query) =>
    queryRaw(query).catch((error) => {
      const { kind, table } = error.cause ?? {}
      if (kind === 'TableDoesNotExist' && table === '_prisma_migrations') return none
      throw error
    })
  return adapter
}

/**
 * The engine replays whole migration files on the shadow database as if each were one statement; the
 * driver runs a file of several only as a script.
 * @param {Adapter} adapter
 */
function withWholeScripts(adapter) {
  adapter.executeRaw = async (query) => {
    await adapter.executeScript(query.sql)
    return 0
  }
  return adapter
}

function serve() {
  let engine = /** @type {Promise<any> | null} */ (null)
  const open = () => {
    engine ??= bindings.SchemaEngine.new(
      { datamodels: datamodels.length ? datamodels : undefined },
      () => {},
      bindMigrationAwareSqlAdapterFactory(adapterFactory()),
    )
    return engine
  }
  const send = (/** @type {object} */ message) =>
    process.stdout.write(`${JSON.stringify({ jsonrpc: '2.0', ...message })}\n`)

  /** @param {string} method @param {any} params */
  async function call(method, params) {
    if (method === 'reset') return emptyDatabase()
    const opened = await open()
    // Here only devDiagnostic and diff replay the migrations; the other two read what it has replayed.
    if (method === 'evaluateDataLoss' || method === 'createMigration') {
      await opened.devDiagnostic({ migrationsList: params.migrationsList, filters: params.filters })
    }
    return (await opened[method === 'getDatabaseVersion' ? 'version' : method](params)) ?? {}
  }

  /** @param {string} line */
  async function answer(line) {
    const { id, method, params } = JSON.parse(line)
    if (!method) return // the CLI's own answer to our 'print'
    try {
      const result = await call(method, params ?? {})
      if (method === 'diff' && result.stdout != null) {
        send({ id: 1_000_000 + id, method: 'print', params: { content: result.stdout } })
      }
      send({ id, result })
    } catch (error) {
      send({ id, error: { code: 4466, message: 'schema engine error', data: faultOf(error) } })
    }
  }

  let answered = Promise.resolve() // one request after the other
  createInterface({ input: process.stdin })
    .on('line', (line) => {
      answered = answered.then(() => answer(line))
    })
    .on('close', stop)
  process.on('SIGTERM', stop) // how the CLI ends its engine

  function stop() {
    answered.then(closeConnections).finally(() => process.exit())
  }
}

async function closeConnections() {
  for (const adapter of connections) await adapter.dispose()
}

/** The WASM engine would only delete the rows; `migrate reset` promises an empty database. */
function emptyDatabase() {
  for (const suffix of ['', '-wal', '-shm', '-journal']) rmSync(databaseFile() + suffix, { force: true })
  writeFileSync(databaseFile(), '')
  return {}
}

/** @param {any} error */
function faultOf(error) {
  return {
    is_panic: false,
    message: String(error?.message ?? error),
    error_code: error?.code ?? null,
    meta: error?.meta ?? null,
  }
}
