import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { root } from '../lib/commands/setup/root.mjs'
import type { Role } from '../lib/domain/staff.ts'
import { addressesOf, type Caller, openAddresses, pageActions, walk } from '../tests/routes/walk.ts'
import { expectAccessible } from './support/axe.ts'
import { expect, test } from './support/test.ts'

test.use({ data: 'empty', house: 'access' })

type SignIn = { role: Role; email: string; password: string }
let signIns: SignIn[] = []

const built = () => path.join(root, process.env.NEXT_DIST_DIR ?? '.next-test')
const manifest = (name: string) => JSON.parse(readFileSync(path.join(built(), name), 'utf8'))

test.beforeAll(({ server }) => {
  const tsx = path.join(root, 'node_modules/tsx/dist/cli.mjs')
  const env = { ...process.env, DATABASE_URL: `file:${path.join(server.folder, 'outflow.db')}` }
  signIns = JSON.parse(
    execFileSync(process.execPath, [tsx, 'e2e/support/make-staff.ts'], { cwd: root, env, encoding: 'utf8' }),
  )
})

test('every page and route of the build refuses whom it is not for', async ({ server }) => {
  const addresses = addressesOf(manifest('app-path-routes-manifest.json'))
  const callers: Caller[] = [{ role: null, cookie: '' }]
  for (const { role, email, password } of signIns) {
    const answer = await fetch(`${server.origin}/api/auth/sign-in/email`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ email, password }),
    })
    expect(answer.status).toBe(200)
    callers.push({
      role,
      cookie: answer.headers
        .getSetCookie()
        .map((cookie) => cookie.split(';')[0])
        .join('; '),
    })
  }
  expect(addresses.length).toBeGreaterThan(20)
  expect(await walk(server.origin, addresses, callers)).toEqual([])

  // What is listed is built, so that no list outlives what it speaks of.
  const patterns = addresses.map(({ pattern }) => pattern)
  expect(
    [...Object.keys(pageActions), ...Object.keys(openAddresses)].filter(
      (pattern) => !patterns.includes(pattern),
    ),
  ).toEqual([])
})

test('the build has no other doors', () => {
  expect(manifest('server/server-reference-manifest.json')).toMatchObject({ node: {}, edge: {} })
  expect(Object.keys(manifest('server/server-reference-manifest.json').node)).toEqual([])
  expect(
    Object.keys(manifest('server/pages-manifest.json')).filter(
      (page) => !/^\/(404|500|_error|_app|_document)$/.test(page),
    ),
  ).toEqual([])
  expect(manifest('routes-manifest.json').rewrites).toEqual({ beforeFiles: [], afterFiles: [], fallback: [] })
  expect(existsSync(path.join(root, 'public'))).toBe(false)
})

test('every answer carries the headers that protect it', async ({ server }) => {
  const nonces = new Set<string>()
  for (const where of [
    '/sign-in',
    '/',
    '/nowhere',
    '/check-in',
    '/sign-in',
    '/api/health',
    '/api/worklist',
    '/api/nothing',
    '/icon.svg',
  ]) {
    const { headers } = await fetch(`${server.origin}${where}`, { redirect: 'manual' })
    const policy = headers.get('content-security-policy') ?? ''
    expect([
      where,
      headers.get('x-content-type-options'),
      headers.get('referrer-policy'),
      headers.get('x-robots-tag'),
    ]).toEqual([where, 'nosniff', 'no-referrer', 'noindex, nofollow'])
    expect(policy, where).toContain("frame-ancestors 'none'")
    expect(policy, where).not.toMatch(/unsafe-|https?:|\*/)
    expect(headers.get('cache-control'), where).toMatch(/no-store/)
    expect(headers.get('x-powered-by')).toBeNull()
    const nonce = /'nonce-([^']+)'/.exec(policy)?.[1]
    if (nonce) nonces.add(nonce)
  }
  expect(nonces.size).toBe(6)
})

test.describe('signing in', () => {
  test.use({ expectedErrors: [/status of (401|404)/] })

  test('leads to the page that was asked for, and out again', async ({ page, context }) => {
    const [nurse] = signIns
    await page.goto('/patients/new?from=mail')
    await expect(page).toHaveURL(/\/sign-in\?next=/)
    await expectAccessible(page)
    await page.getByLabel('E-mail address').fill(nurse?.email ?? '')
    await page.getByLabel('Password').fill('not this one at all')
    await page.getByRole('button', { name: 'Sign in' }).click()
    await expect(page.getByText('The e-mail address or the password is not right.')).toBeVisible()
    await expectAccessible(page)
    await page.getByLabel('Password').fill(nurse?.password ?? '')
    await page.getByRole('button', { name: 'Sign in' }).click()
    await expect(page).toHaveURL(/\/patients\/new\?from=mail$/)
    const [cookie] = await context.cookies()
    expect(cookie).toMatchObject({
      name: '__Host-session',
      secure: true,
      httpOnly: true,
      sameSite: 'Lax',
      path: '/',
      expires: -1,
    })
    await page.getByRole('button', { name: 'Sign out' }).click()
    await expect(page).toHaveURL(/\/sign-in$/)
    expect(await context.cookies()).toEqual([])
    await page.goto('/')
    await expect(page).toHaveURL(/\/sign-in$/)
  })

  test('an administrator is told that patients are not theirs to see', async ({ page }) => {
    const administrator = signIns.find(({ role }) => role === 'administrator')
    await page.goto('/sign-in')
    await page.getByLabel('E-mail address').fill(administrator?.email ?? '')
    await page.getByLabel('Password').fill(administrator?.password ?? '')
    await page.getByRole('button', { name: 'Sign in' }).click()
    await expect(page.getByRole('heading', { name: 'Not for your role' })).toBeVisible()
    await expectAccessible(page)
  })

  test('a new password comes by letter, and the old sessions end', async ({ page, server, openBrowser }) => {
    const coordinator = signIns.find(({ role }) => role === 'coordinator')
    const email = coordinator?.email ?? ''
    const enter = async (where: typeof page, password: string) => {
      await where.goto('/sign-in')
      await where.getByLabel('E-mail address').fill(email)
      await where.getByLabel('Password').fill(password)
      await where.getByRole('button', { name: 'Sign in' }).click()
      await expect(where.getByRole('button', { name: 'Sign out' })).toBeVisible()
    }
    const elsewhere = await (await openBrowser()).newPage()
    await enter(elsewhere, coordinator?.password ?? '')

    await page.goto('/forgot-password')
    await expectAccessible(page)
    await page.getByLabel('E-mail address').fill(email)
    await page.getByRole('button', { name: 'Send me a link' }).click()
    await expect(page.getByRole('status')).toContainText('If this address has an account')
    const link = await letterTo(email, path.join(server.folder, 'mail'))
    expect(new URL(link).origin).toBe(server.origin)
    await page.goto(link)
    await expectAccessible(page)
    await page.getByLabel('New password').fill('plain tracing paper on a shelf')
    await page.getByRole('button', { name: 'Set the password' }).click()
    await expect(page.getByRole('status')).toContainText('Your password is set')

    await elsewhere.goto('/')
    await expect(elsewhere).toHaveURL(/\/sign-in$/)
    await enter(page, 'plain tracing paper on a shelf')
  })
})

async function letterTo(email: string, folder: string): Promise<string> {
  let found = ''
  await expect
    .poll(() => {
      const letters = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.eml')) : []
      const text =
        letters
          .map((name) => readFileSync(path.join(folder, name), 'utf8'))
          .find((letter) => letter.includes(`To: ${email}`)) ?? ''
      found = /https?:\/\/\S+/.exec(text.replace(/=\r\n/g, '').replace(/=3D/g, '='))?.[0] ?? ''
      return found
    })
    .toMatch(/reset-password#/)
  return found
}
