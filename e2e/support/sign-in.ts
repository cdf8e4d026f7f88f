import { expect, type Page } from '@playwright/test'
import { demoIn } from '../../lib/commands/setup/demo.mjs'
import type { Server } from './server.ts'

/**
 * Signs in as the demo clinic's member of that role; `which` tells two of one role apart. It goes through the door that
 * the screen uses; the screen itself has its own journey (access.spec.ts).
 */
export async function signIn(page: Page, server: Server, role: string, which = 0): Promise<void> {
  const member = demoIn(server.folder)?.signIns.filter((signIn) => signIn.role === role)[which]
  if (!member) throw new Error(`the demo clinic has no such ${role}`)
  const { email, password } = member
  const answer = await page.request.post(`${server.origin}/api/auth/sign-in/email`, {
    headers: { origin: server.origin },
    data: { email, password },
  })
  expect(answer.status()).toBe(200)
  await page.goto('/')
  await expect(page).not.toHaveURL(/sign-in/)
}
