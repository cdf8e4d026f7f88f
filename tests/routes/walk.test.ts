import { once } from 'node:events'
import { createServer, type Server } from 'node:http'
import { afterEach, describe, expect, it } from 'vitest'
import { Role } from '../../lib/domain/staff.ts'
import { addressesOf, type Caller, walk } from './walk.ts'

type Answer = { status: number; action?: string; location?: string }
const callers: Caller[] = [
  { role: null, cookie: '' },
  ...Role.options.map((role) => ({ role, cookie: role })),
]

let server: Server | undefined
afterEach(() => server?.close())

/** Walks one address whose server answers as told; `role` is who asks. */
async function walked(
  file: string,
  pattern: string,
  answer: (role: Role | null, method: string) => Answer,
): Promise<string[]> {
  server = createServer((request, response) => {
    const { status, action, location } = answer(
      (request.headers.cookie as Role | undefined) ?? null,
      request.method ?? '',
    )
    response
      .writeHead(status, {
        ...(action ? { 'Outflow-Action': action } : {}),
        ...(location ? { location } : {}),
      })
      .end()
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  const { port } = server.address() as { port: number }
  return walk(`http://127.0.0.1:${port}`, addressesOf({ [file]: pattern }), callers)
}

/** As a route of ours for 'audit' answers. */
const guarded = (role: Role | null): Answer => ({
  action: 'audit',
  status: role === null ? 401 : role === 'physician' ? 404 : 403,
})
const only = (method: string, wanted: string, answer: Answer): Answer =>
  method === wanted ? answer : { status: 405 }

describe('the walk finds nothing at', () => {
  it('a guarded route that nobody has listed', async () => {
    expect(await walked('/api/new/route', '/api/new', guarded)).toEqual([])
  })
  it('a page for its role', async () => {
    const page = (role: Role | null): Answer =>
      role === null
        ? { status: 307, location: '/sign-in?next=%2F' }
        : role === 'administrator'
          ? { status: 307, location: '/refused' }
          : { status: 200 }
    expect(await walked('/(staff)/page', '/', page)).toEqual([])
  })
  it('a door with credentials of its own that refuses', async () => {
    expect(await walked('/api/link/route', '/api/link', () => ({ status: 401 }))).toEqual([])
  })
})

describe('the walk finds', () => {
  it('a planted route without a guard', async () => {
    const faults = await walked('/api/planted/route', '/api/planted', (_, method) =>
      only(method, 'GET', { status: 200 }),
    )
    expect(faults).toHaveLength(callers.length)
    expect(faults[0]).toBe('GET /api/planted let nobody in and names no action of ours (200)')
  })
  it('a planted route that finds nothing, or chokes, instead of refusing', async () => {
    for (const status of [204, 400, 404, 500]) {
      const faults = await walked('/api/planted/route', '/api/planted', (_, method) =>
        only(method, 'POST', { status }),
      )
      expect([status, faults.length]).toEqual([status, callers.length])
      server?.close()
    }
  })
  it('one method without a guard among guarded ones', async () => {
    const faults = await walked('/api/patients/[id]/hold/route', '/api/patients/[id]/hold', (role, method) =>
      method === 'DELETE' ? { status: 204 } : guarded(role),
    )
    expect(faults.every((fault) => fault.startsWith('DELETE '))).toBe(true)
    expect(faults).toHaveLength(callers.length)
  })
  it('a route that asks for a sign-in and no more', async () => {
    const faults = await walked('/api/planted/route', '/api/planted', (role) => ({
      action: 'audit',
      status: role ? 200 : 401,
    }))
    expect(faults).toContain("GET /api/planted (audit): nurse was to be 'not allowed' and was 'let in' (200)")
  })
  it('a route that refuses whom it is for', async () => {
    expect(
      await walked('/api/planted/route', '/api/planted', (role) => ({
        action: 'audit',
        status: role ? 403 : 401,
      })),
    ).toContain("GET /api/planted (audit): physician was to be 'let in' and was 'not allowed' (403)")
  })
  it('a route that refuses all in a way of its own', async () => {
    expect((await walked('/api/planted/route', '/api/planted', () => ({ status: 401 }))).length).toBe(
      5 * callers.length,
    )
  })
  it('a page that nobody has thought of', async () => {
    expect(
      await walked('/(staff)/planted/page', '/planted', (role) =>
        role ? { status: 200 } : { status: 307, location: '/sign-in' },
      ),
    ).toHaveLength(Role.options.length)
  })
  it('a page that lets an administrator see a patient', async () => {
    const page = (role: Role | null): Answer =>
      role ? { status: 200 } : { status: 307, location: '/sign-in' }
    expect(await walked('/(staff)/patients/[id]/page', '/patients/[id]', page)).toEqual([
      "GET /patients/[id] (read-patient): administrator was to be 'not allowed' and was 'let in' (200)",
    ])
  })
  it('a door with credentials that has stopped to ask for them', async () => {
    expect(
      (
        await walked('/api/check-in/route', '/api/check-in', (_, method) =>
          only(method, 'GET', { status: 200 }),
        )
      ).length,
    ).toBe(callers.length)
  })
})
