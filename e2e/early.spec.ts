import type { Page } from '@playwright/test'
import { demoIn } from '../lib/commands/setup/demo.mjs'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// A page is read before its script has come over a slow line. What is pressed then is done once the script is there.

/** Keeps every script file of the page back until it is told to let them through. */
async function holdScripts(page: Page): Promise<() => void> {
  let letThrough = () => {}
  const released = new Promise<void>((resolve) => {
    letThrough = resolve
  })
  await page.route(/\/_next\/static\/.*\.js/, async (route) => {
    await released
    await route.continue()
  })
  return letThrough
}

test('who signs in before the script is there is signed in, and no password comes into an address', async ({
  page,
  server,
}) => {
  const nurse = demoIn(server.folder)?.signIns.find(({ role }) => role === 'nurse')
  const letThrough = await holdScripts(page)
  await page.goto('/sign-in', { waitUntil: 'commit' })
  await page.getByLabel('E-mail address').fill(nurse?.email ?? '')
  await page.getByLabel('Password').fill(nurse?.password ?? '')
  await page.getByLabel('Password').press('Enter')
  await page.getByRole('button', { name: 'Sign in' }).click()
  await expect(page).toHaveURL(`${server.origin}/sign-in`)
  letThrough()
  await expect(page).toHaveURL(`${server.origin}/`)
})

test('a form that is opened before the script is there, with a second press since nothing happened, opens once', async ({
  page,
  server,
}) => {
  const { patientId } = await enrolPerson(server, 'Ambrose Quillfeather (invented)')
  await signIn(page, server, 'nurse')
  const letThrough = await holdScripts(page)
  await page.goto(`/patients/${patientId}`, { waitUntil: 'commit' })
  await page.getByRole('button', { name: 'Enter a report by phone' }).dblclick()
  await expect(page.getByRole('dialog')).toHaveCount(0)
  letThrough()
  await expect(page.getByRole('dialog').getByLabel('Came out, mL')).toBeVisible()
})

test('a search that is typed into the list before the script is there', async ({ page, server }) => {
  await enrolPerson(server, 'Ottoline Farthingale (invented)')
  await signIn(page, server, 'nurse')
  const letThrough = await holdScripts(page)
  await page.goto('/', { waitUntil: 'commit' })
  const search = page.getByRole('searchbox')
  await search.fill('no one of this name')
  letThrough()
  await expect(page.locator('html')).toHaveAttribute('data-ready', '')
  await expect(search).toHaveValue('no one of this name')
  await expect(page.getByText(/no row/i).first()).toBeVisible()
})

test('a choice that is made before the script is there', async ({ page, server }) => {
  const { patientId } = await enrolPerson(server, 'Peregrine Addlestrop (invented)')
  await signIn(page, server, 'nurse')
  const letThrough = await holdScripts(page)
  await page.goto(`/patients/${patientId}/hand-out`, { waitUntil: 'commit' })
  const language = page.getByLabel('Language of the hand-out')
  await language.selectOption('es')
  await page.getByRole('button', { name: 'Print with a new link' }).click()
  letThrough()
  await expect(page.getByText('Traducción pendiente de revisión').first()).toBeVisible()
  await expect(language).toHaveValue('es')
})
