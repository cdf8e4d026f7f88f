import { answerAll, answerTube, next, openLink, phone, screen, send } from './support/check-in.ts'
import { enrolPerson } from './support/person.ts'
import { expect, test } from './support/test.ts'

// What can go wrong between the first answer and the receipt: no network, a closed tab, a second tab, a link that ends.

test.use({
  ...phone,
  // What Chromium itself notes where a journey cuts the network or ends a link.
  expectedErrors: [/Failed to load resource/],
})

test('the network is cut at the moment of sending', async ({ page, context, server }) => {
  const person = await enrolPerson(server, 'Casimir Dunmore-Fay (invented)')
  await openLink(page, person.link)
  await answerAll(page)
  await screen(page, 'Is this right?')

  await context.setOffline(true)
  await send(page).click()
  await screen(page, 'Not sent yet')
  await expect(page.getByText('Your report is safe on this phone.')).toBeVisible()
  expect(await person.reports()).toHaveLength(0)
  await page.close()

  const later = await context.newPage()
  await context.setOffline(false)
  await later.goto(person.link)
  await screen(later, 'The clinic has your report')
  expect(await person.reports()).toHaveLength(1)
})

test('the answer is lost on its way: the same report goes again and is one report', async ({
  page,
  server,
}) => {
  const person = await enrolPerson(server, 'Odile Farrant-Moss (invented)')
  await openLink(page, person.link)
  await answerAll(page)
  await screen(page, 'Is this right?')

  const keys: (string | undefined)[] = []
  await page.route('**/api/check-in', async (route) => {
    if (route.request().method() !== 'POST') return route.continue()
    keys.push(route.request().headers()['idempotency-key'])
    if (keys.length > 1) return route.continue()
    await route.fetch() // the clinic has it
    await route.abort('connectionreset')
  })
  await send(page).click()
  await screen(page, 'Not sent yet')
  expect(await person.reports()).toHaveLength(1)
  await page.getByRole('button', { name: 'Try again now' }).click()
  await screen(page, 'The clinic has your report')
  expect(keys).toHaveLength(2)
  expect(keys[1]).toBe(keys[0])
  expect(await person.reports()).toHaveLength(1)
})

test('back goes one screen back; a reload and a closed tab lose nothing', async ({
  page,
  context,
  server,
}) => {
  const person = await enrolPerson(server, 'Lorcan Whitby-Sage (invented)')
  await openLink(page, person.link)
  await page.getByLabel('Dizzy').check()
  await next(page)
  await answerTube(page)
  await page.getByLabel('I measured it').check()
  await page.getByLabel('How much?').fill('275')

  await page.goBack()
  await screen(page, /The tube/)
  await expect(page.getByLabel('Where it always is')).toBeChecked()
  await page.goBack()
  await screen(page, 'How do you feel?')
  await expect(page.getByLabel('Dizzy')).toBeChecked()
  await page.goForward()
  await page.goForward()
  await screen(page, /What came out/)
  await expect(page.getByLabel('How much?')).toHaveValue('275')

  await page.reload()
  await screen(page, /What came out/)
  await expect(page.getByLabel('How much?')).toHaveValue('275')
  await page.close()

  const again = await context.newPage()
  await again.goto(person.link)
  await screen(again, /What came out/)
  await expect(again.getByLabel('How much?')).toHaveValue('275')
  await again.getByRole('button', { name: 'Back' }).click()
  await screen(again, /The tube/)
})

test('a danger answer has its advice without a network, and goes with what was filled in', async ({
  page,
  context,
  server,
}) => {
  const person = await enrolPerson(server, 'Mireille Oakes-Tarn (invented)')
  await openLink(page, person.link)
  await page.getByLabel('None of these').check()
  await next(page)
  await screen(page, /The tube/)
  await context.setOffline(true)
  await page.getByLabel('It came out').check()
  await expect(page.getByText('Do not push the tube back in.')).toBeInViewport()
  await next(page)
  await screen(page, 'Do this now')
  await expect(page.getByText('Go to the nearest emergency department now.')).toBeVisible()
  await page.getByRole('button', { name: 'Stop here' }).click()
  await screen(page, 'Not sent yet')
  await expect(page.getByText('Do not push the tube back in.')).toBeVisible()
  await context.setOffline(false)
  await screen(page, 'The clinic has your report')
  expect((await person.reports())[0]?.symptoms).toMatchObject({ general: [], drains: [{ position: 'out' }] })
})

test('the link ends in the middle: nothing is lost, the next link sends it', async ({ page, server }) => {
  const person = await enrolPerson(server, 'Ruben Ashgrove-Hale (invented)')
  await openLink(page, person.link)
  await answerAll(page)
  await screen(page, 'Is this right?')
  await person.revokeLinks()
  await send(page).click()
  await screen(page, 'Please open your link again')
  expect(await person.reports()).toHaveLength(0)
  await page.goto(await person.newLink())
  await screen(page, 'The clinic has your report')
  expect(await person.reports()).toHaveLength(1)
})

test('two tabs send one report', async ({ page, context, server }) => {
  const person = await enrolPerson(server, 'Delphine Garrow-Pike (invented)')
  await openLink(page, person.link)
  await answerAll(page)
  await screen(page, 'Is this right?')
  const second = await context.newPage()
  await second.goto(`${server.origin}/check-in`)
  await screen(second, 'Is this right?')
  await Promise.all([send(page).click(), send(second).click()])
  const over = /The clinic has your report|This report was already sent/
  await screen(page, over)
  await screen(second, over)
  expect(await person.reports()).toHaveLength(1)
})

test('two people on one phone never meet each other', async ({ page, server }) => {
  const one = await enrolPerson(server, 'Sabine Holt-Verrier (invented)')
  const other = await enrolPerson(server, 'Amos Kettering-Dale (invented)')
  await openLink(page, one.link)
  await page.getByLabel('Throwing up').check()
  await page.goto(other.link)
  await expect(page.getByText('Hello Amos')).toBeVisible()
  await expect(page.getByLabel('Throwing up')).not.toBeChecked()
  await page.goto(one.link)
  await expect(page.getByText('Hello Sabine')).toBeVisible()
  await expect(page.getByLabel('Throwing up')).toBeChecked()
})

test('an unknown link and one that was taken back read alike', async ({ page, server }) => {
  const person = await enrolPerson(server, 'Petra Vance-Ludlow (invented)')
  await person.revokeLinks()
  const words: (string | null)[] = []
  for (const link of [person.link, person.link.replace(/#.*/, '#no-such-token')]) {
    await page.goto(link)
    await screen(page, 'This link does not open a check-in')
    expect(page.url()).not.toContain('#')
    words.push(await page.locator('main').textContent())
    await page.goto('about:blank')
  }
  expect(new Set(words).size).toBe(1)
  expect(words[0]).toContain('call your clinic')
  await page.goto('/check-in')
  await screen(page, 'This link does not open a check-in')
})
