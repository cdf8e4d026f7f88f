import { randomUUID } from 'node:crypto'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import type { Page } from '@playwright/test'
import { askFrom, checkInDoor } from './support/doors.ts'
import type { Server } from './support/server.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// A reminder goes out at the patient's hour, not to somebody who has reported, and not to somebody who stopped it.

test.use({ house: 'reminders' })

const HOUR_MS = 3_600_000
const MINUTE_MS = 60_000
/** From the moment at which a letter is due until it lies in the folder. */
const LETTER_MS = 30_000

/** A zone in which it is about noon now, so that no hour of the journey is quiet. */
function noonZone(nowMs: number): string {
  const east = 12 - new Date(nowMs).getUTCHours()
  return east === 0 ? 'Etc/GMT' : `Etc/GMT${east > 0 ? '-' : '+'}${Math.abs(east)}`
}
const clockIn = (zone: string, ms: number) =>
  new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit' }).format(ms)

/** A letter in the folder of those that nobody sends, as a person would read it. */
type Letter = { raw: string; text: string }
function lettersTo({ folder }: Server, address: string): Letter[] {
  const mail = path.join(folder, 'mail')
  if (!existsSync(mail)) return []
  return readdirSync(mail)
    .filter((name) => name.endsWith('.eml'))
    .map((name) => readFileSync(path.join(mail, name), 'utf8'))
    .filter((raw) => raw.includes(`To: ${address}`))
    .map((raw) => ({ raw, text: raw.replace(/=\r?\n/g, '').replace(/=3D/g, '=') }))
}

type Reminded = { email: string; log: (atMs: number) => Promise<void> }

/** Enrols an invented person with one tube who wants a mail at that hour of theirs. */
async function enrol(page: Page, server: Server, who: { name: string; zone: string; hour: string }) {
  const nowMs = Date.now()
  const email = `${randomUUID().slice(0, 8)}@home.example`
  const { link, patientId } = await askFrom<{ link: string; patientId: string }>(
    page,
    'POST',
    '/api/patients',
    {
      name: who.name,
      birthDate: '1958-03-12',
      recordNumber: `T-${randomUUID().slice(0, 8)}`,
      timeZone: who.zone,
      enrolledAt: new Date(nowMs - 240 * HOUR_MS).toISOString(),
      profile: {
        contacts: [
          {
            name: who.name,
            relation: 'self',
            phone: null,
            email,
            mayCall: true,
            mayVoicemail: false,
            mayDisclose: 'call-back-only',
          },
        ],
        checkInLanguage: 'en',
        anticoagulant: null,
        immunosuppressed: null,
        allergies: null,
        thermometer: true,
        teachBack: true,
        reminders: { channel: 'email', at: who.hour },
      },
      drains: [
        {
          label: 'left kidney',
          kind: 'nephrostomy',
          side: 'left',
          placedAt: new Date(nowMs - 336 * HOUR_MS).toISOString(),
          bagCapacityMl: 600,
          plan: { logEveryHours: 24, dressingEveryHours: 500 },
        },
      ],
    },
  )
  const whole = new URL(link, server.origin).href
  const { send, drain } = await checkInDoor(server, { patientId, link: whole } as never)
  const log = async (atMs: number) => {
    const readings = [{ drain, at: new Date(atMs).toISOString(), volumeMl: 400 }]
    expect((await send({ readings }, randomUUID())).status).toBe(200)
  }
  return { email, log } satisfies Reminded
}

test('at the patient’s hour, to nobody who has reported, and no more once stopped', async ({
  page,
  server,
  openBrowser,
}) => {
  test.setTimeout(180_000)
  const startMs = Date.now()
  const zone = noonZone(startMs)
  const hour = clockIn(zone, startMs + 22 * HOUR_MS)
  await signIn(page, server, 'nurse')
  const silent = await enrol(page, server, { name: 'Corin Ashdown-Pell (invented)', zone, hour })
  const stops = await enrol(page, server, { name: 'Marit Oakes-Tilden (invented)', zone, hour })
  const reports = await enrol(page, server, { name: 'Rufus Senn-Whitby (invented)', zone, hour })
  for (const person of [silent, stops, reports]) await person.log(startMs)
  await page.goto('about:blank')

  let movedMs = 0
  const moveTo = (ms: number) => {
    server.moveClock(ms - movedMs)
    movedMs = ms
  }
  const letters = (person: Reminded) => lettersTo(server, person.email)

  await test.step('one of them reports an hour before it', async () => {
    moveTo(21 * HOUR_MS)
    await reports.log(startMs + movedMs)
    expect([silent, stops, reports].flatMap(letters)).toEqual([])
  })

  await test.step('the others get a letter at their hour', async () => {
    moveTo(22 * HOUR_MS + MINUTE_MS)
    for (const person of [silent, stops])
      await expect.poll(() => letters(person).length, { timeout: LETTER_MS }).toBe(1)
    expect(letters(reports)).toEqual([])
    const [letter] = letters(silent)
    expect(letter?.raw).toMatch(/^Subject: A message from your clinic\r?$/m)
    expect(letter?.raw).toMatch(/^List-Unsubscribe-Post: List-Unsubscribe=One-Click\r?$/m)
    expect(letter?.text).toContain('asks you to open your check-in page')
    expect(letter?.text).not.toMatch(/kidney|drain|tube|Ashdown/i)
  })

  await test.step('the link in it leads to a button; to look changes nothing; the button stops', async () => {
    const address = /^http:\/\/[^/]+\/stop\?t=\S+/m.exec(letters(stops)[0]?.text ?? '')?.[0] ?? ''
    const phone = await (await openBrowser({ viewport: { width: 320, height: 640 } })).newPage()
    for (let looks = 0; looks < 2; looks++) {
      await phone.goto(address)
      await expect(phone.getByRole('button', { name: 'Stop the messages' })).toBeVisible()
    }
    await phone.getByRole('button', { name: 'Stop the messages' }).click()
    await expect(phone.getByRole('status')).toContainText('no more of these messages')
    await phone.goto(`${server.origin}/stop?t=forged`)
    await expect(phone.getByText('This link does not work')).toBeVisible()
  })

  await test.step('after the miss one letter comes to who is silent still', async () => {
    moveTo(30.5 * HOUR_MS)
    await expect.poll(() => letters(silent).length, { timeout: LETTER_MS }).toBe(2)
    expect(letters(stops)).toHaveLength(1)
    expect(letters(reports)).toEqual([])
  })
})
