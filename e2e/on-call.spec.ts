import { randomUUID } from 'node:crypto'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expectAccessible } from './support/axe.ts'
import { checkInDoor } from './support/doors.ts'
import { enrolPerson } from './support/person.ts'
import type { Server } from './support/server.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// At night a drain that is out reaches a person, until somebody says 'I have it'; the worklist shows who.

test.use({ house: 'on-call' })

const HOUR_MS = 3_600_000
const ZONE = 'America/Denver'
const NAME = 'Corin Ashdown-Pell (invented)'
/** From the moment at which a message is due until it lies in the folder. */
const LETTER_MS = 40_000

const hourIn = (ms: number) =>
  Number(new Intl.DateTimeFormat('en-GB', { timeZone: ZONE, hour: '2-digit', hourCycle: 'h23' }).format(ms))

/** How far it is to the next 22 o'clock at the clinic. */
function untilNight(nowMs: number): number {
  let ms = 0
  while (hourIn(nowMs + ms) !== 22) ms += HOUR_MS
  return ms
}

/** The messages to the people on call in the folder of those that nobody sends, about a patient, as they read. */
function messages({ folder }: Server): { to: string; text: string; link: string }[] {
  const mail = path.join(folder, 'mail')
  if (!existsSync(mail)) return []
  return readdirSync(mail)
    .filter((name) => name.endsWith('.eml'))
    .map((name) =>
      readFileSync(path.join(mail, name), 'utf8')
        .replace(/=\r?\n/g, '')
        .replace(/=3D/g, '='),
    )
    .map((text) => ({
      text,
      to: /^To: (\S+)\r?$/m.exec(text)?.[1] ?? '',
      link: /http:\/\/\S+\/on-call\/\S+/.exec(text)?.[0] ?? '',
    }))
    .filter(({ link, text }) => link !== '' && text.includes('Drain out, Leak'))
}

test('a drain that is out at night is told, taken by its link, and shown on the worklist', async ({
  page,
  server,
  openBrowser,
}) => {
  test.setTimeout(240_000)
  const movedMs = untilNight(Date.now())
  const person = await enrolPerson(server, NAME)
  const { send, drain } = await checkInDoor(server, person)
  server.moveClock(movedMs)
  await signIn(page, server, 'charge-nurse')

  await test.step('the rota and the table stand under settings', async () => {
    await page.goto('/settings/rota')
    await expect(page.getByText(/^On call now: Dr. A. Ferreira \(invented\), then Dr. K. Osei/)).toBeVisible()
    await expectAccessible(page)
    await page.goto('/settings/after-hours')
    await expect(page.getByRole('heading', { name: 'Outside opening hours' })).toBeVisible()
    await expect(page.getByText('nobody can be told after hours; letters stay in a folder')).toBeVisible()
    await expectAccessible(page)
  })

  const at = new Date(Date.now() + movedMs).toISOString()
  const symptoms = {
    at,
    temperatureC: 36.8,
    chills: false,
    pain: 1,
    general: [],
    drains: [{ drain, position: 'out', leak: true, draining: null }],
  }
  expect((await send({ symptoms }, randomUUID())).status).toBe(200)

  await expect.poll(() => messages(server).length, { timeout: LETTER_MS }).toBeGreaterThan(0)
  const [message] = messages(server)
  expect(message?.to).toBe('oncall-1@larkfield.example')
  expect(message?.text).not.toContain('Ashdown')

  await page.goto('/')
  const row = page.locator(`[data-row="${person.patientId}"]`).first()
  await expect(row).toContainText(/On call: Dr. A. Ferreira \(invented\) was told/, { timeout: 30_000 })

  const phone = await (await openBrowser({ viewport: { width: 320, height: 640 } })).newPage()
  await test.step('the link shows what was found, and who it is only after ‘I have it’', async () => {
    await phone.goto(message?.link ?? '')
    await expect(phone.getByText('Nobody has it yet.')).toBeVisible()
    await expect(phone.getByRole('heading', { name: /Drain out, left kidney/ })).toBeVisible()
    await expect(phone.locator('body')).not.toContainText('Ashdown')
    await expectAccessible(phone)
    const over = await phone.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    )
    expect(over, 'sideways scroll').toBe(0)
    await phone.getByRole('button', { name: 'I have it' }).click()
    await expect(phone.getByRole('heading', { name: NAME })).toBeVisible()
    await expect(phone.getByText('Decision support, not a diagnosis.')).toBeVisible()
    await expectAccessible(phone)
  })

  await test.step('the worklist and the patient’s page say who has it', async () => {
    await expect(row).toContainText(/On call: Dr. A. Ferreira \(invented\) has it since/, { timeout: 30_000 })
    await page.goto(`/patients/${person.patientId}`)
    const steps = page.getByRole('region', { name: 'After hours' })
    await expect(steps).toContainText('Dr. A. Ferreira (invented) said ‘I have it’')
    await expectAccessible(page)
  })

  await test.step('passed on, the next person is told', async () => {
    await phone.getByRole('button', { name: /pass it on/ }).click()
    await expect(phone.getByText('Nobody has it yet.')).toBeVisible()
    await expect(phone.locator('body')).not.toContainText('Ashdown')
    await expect
      .poll(() => messages(server).some(({ to }) => to === 'oncall-2@larkfield.example'), {
        timeout: LETTER_MS,
      })
      .toBe(true)
  })
})
