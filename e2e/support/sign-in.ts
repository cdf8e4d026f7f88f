import { expect, type Page } from '@playwright/test'
import { demoIn } from '../../lib/commands/setup/demo.mjs'
import type { Server } from './server.ts'

/** Signs in through the screen as the demo clinic's member of that role; `which` tells two of one role apart. */
export async function signIn(page: Page, server: Server, role: string, which = 0): Promise<void> {
  const member = demoIn(server.folder)?.signIns.filter((signIn) => signIn.role === role)[which]
  if (!member) throw new Error(`the demo clinic has no such ${role}`)
  await page.goto('/sign-in')
  await page.getByLabel(/e-?mail/i).fill(member.email)
  await page.getByLabel(/^password/i).fill(member.password)
  await page.getByRole('button', { name: /^sign in/i }).click()
  await expect(page).not.toHaveURL(/sign-in/)
  // What is pressed before the page has its script is lost, as it would be for a person: the pointer says so.
  await expect(page.locator('html')).toHaveAttribute('data-ready', '')
}
