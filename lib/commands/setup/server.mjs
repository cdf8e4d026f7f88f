import { createServer } from 'node:net'
import { nextCli } from './build.mjs'
import { start } from './processes.mjs'
import { Refusal } from './refusal.mjs'

/** @typedef {{ host: string, port: number, url: string }} Address */

/** Where to serve, from PORT and HOST. @param {NodeJS.ProcessEnv} env @returns {Address} */
export function addressOf({ PORT = '3000', HOST = '127.0.0.1' }) {
  const port = Number(PORT)
  if (!Number.isInteger(port) || port < 1 || port > 65_535) {
    throw new Refusal(`PORT is '${PORT}': a number from 1 to 65535 is needed.`)
  }
  const everywhere = HOST === '0.0.0.0' || HOST === '::'
  const shown = everywhere ? 'localhost' : HOST.includes(':') ? `[${HOST}]` : HOST
  return { host: HOST, port, url: `http://${shown}:${port}` }
}

/** Refuses a port that is taken or not ours to take. @param {Address} address */
export async function requireFreePort({ host, port }) {
  const probe = createServer()
  const fault = await new Promise((resolve) => {
    probe.once('error', resolve)
    probe.listen({ host, port, exclusive: true }, () => resolve(null))
  })
  if (!fault) return new Promise((resolve) => probe.close(resolve))
  if (fault.code === 'EADDRINUSE') {
    throw new Refusal(`Port ${port} is in use: choose another, for example PORT=${port + 1} npm start`)
  }
  throw new Refusal(`Cannot serve on ${host}, port ${port} (${fault.code}): set HOST and PORT to others.`)
}

/**
 * Starts the built server and waits until it answers. `ended` resolves with its exit code or signal.
 * @param {string} folder what `build` made @param {Address} address
 */
export async function serve(folder, { host, port, url }) {
  const child = start([process.execPath, nextCli, 'start', '-H', host, '-p', String(port)], {
    env: { PORT: String(port), NEXT_DIST_DIR: folder, NODE_ENV: 'production', NEXT_TELEMETRY_DISABLED: '1' },
  })
  let over = false
  const ended = new Promise((resolve) =>
    child.on('exit', (code, signal) => {
      over = true
      resolve(code ?? signal)
    }),
  )
  for (let tries = 0; tries < 300 && !over; tries++) {
    const health = await fetch(`${url}/api/health`).catch(() => null)
    if (health?.ok) return { ended }
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  throw new Refusal(
    over ? `The server ended at once (${await ended}).` : `No sign of health at ${url}/api/health.`,
  )
}
