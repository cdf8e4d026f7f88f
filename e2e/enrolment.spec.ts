import type { Locator, Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { askFrom, checkInDoor } from './support/doors.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

/** Goes on with the Tab key until a control has the focus. */
async function tabTo(page: Page, control: Locator): Promise<void> {
  for (let presses = 0; presses < 45; presses++) {
    if (await control.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('Tab')
  }
  await expect(control).toBeFocused()
}

/** Types into a control that is reached by keyboard. */
async function type(page: Page, control: Locator, text: string): Promise<void> {
  await tabTo(page, control)
  await page.keyboard.type(text)
}

const number = () => `E-${crypto.randomUUID().slice(0, 8)}`
const enrolButton = (page: Page) => page.getByRole('button', { name: 'Enrol and make the link' })
const placed = (page: Page | Locator) => page.getByLabel('Placed, patient’s time')

test.describe('enrolment', () => {
  // What the server refuses (a child, a record number that is taken) the browser notes as an error.
  test.use({ expectedErrors: [/status of 4(00|09)/] })

  test('by keyboard alone: person, contacts, drain and orders, then the list before leaving', async ({
    page,
    server,
    openBrowser,
  }) => {
    await signIn(page, server, 'nurse')
    await page.goto('/patients/new')
    const name = 'Marigold Thistlewood (invented)'
    await type(page, page.getByLabel('Full name'), name)
    await type(page, page.getByLabel('Birth date'), '06061961')
    await type(page, page.getByLabel('Record number'), number())
    await type(page, page.getByLabel('Language'), 'Spanish')
    await expect(page.getByLabel('Check-in page and hand-out in')).toHaveValue('es')
    await type(page, page.getByLabel('Phone'), '+1 303 555 0107')
    await tabTo(page, page.getByRole('button', { name: 'Another contact' }))
    await page.keyboard.press('Enter')
    const second = page.getByRole('group', { name: /^Then/ })
    await expect(page.getByLabel('Name', { exact: true })).toBeFocused()
    await page.keyboard.type('Pilar Thistlewood')
    await type(page, second.getByLabel('Related how'), 'sister')
    await type(page, second.getByLabel('Phone'), '+1 303 555 0108')
    await tabTo(page, second.getByLabel('voicemail'))
    await page.keyboard.press('Space')
    await type(page, page.getByLabel('Blood thinners'), 'y')
    await type(page, page.getByLabel('Allergies'), 'latex')
    await type(page, page.getByLabel('Kind'), 'Bil')
    await expect(page.getByLabel('Flush, mL')).toHaveValue('10')
    await type(page, page.getByLabel('Size, Fr'), '8.5')
    // Day and month are the same number, since a browser's own language says which comes first.
    await type(page, placed(page), '11112026')
    await page.keyboard.press('ArrowRight')
    await page.keyboard.type('0930AM')
    await type(page, page.getByLabel('Mark at the skin, cm'), '15')
    await type(page, page.getByLabel('Last 24 h on the ward, mL'), '420')
    await expectAccessible(page)
    await tabTo(page, enrolButton(page))
    await page.keyboard.press('Enter')

    await expect(page.getByRole('heading', { name: `${name} is enrolled` })).toBeFocused()
    await expectAccessible(page)
    const link = await page.getByLabel('Check-in link').inputValue()
    const [, id = ''] = /enrolled=([\w-]+)/.exec(page.url()) ?? []
    const { patient, record } = await askFrom<{
      patient: { profile: { checkInLanguage: string; contacts: unknown[]; anticoagulant: boolean } }
      record: { drains: { usualMlPerDay: number; kind: string }[] }
    }>(page, 'GET', `/api/patients/${id}`)
    expect(patient.profile).toMatchObject({
      checkInLanguage: 'es',
      anticoagulant: true,
      contacts: [
        { relation: 'self', phone: '+1 303 555 0107' },
        { name: 'Pilar Thistlewood', relation: 'sister', mayVoicemail: true, mayDisclose: 'call-back-only' },
      ],
    })
    expect(record.drains).toMatchObject([{ kind: 'biliary', usualMlPerDay: 420 }])

    await test.step('teach-back and thermometer are noted here', async () => {
      await page.getByRole('button', { name: 'Teach-back is done' }).click()
      await expect(page.getByText('They said back what to watch for')).toBeVisible()
      await page.getByRole('button', { name: 'They have a thermometer' }).click()
      await expect(page.getByText('They have one at home.')).toBeVisible()
    })

    await test.step('the first report shows as it comes', async () => {
      const phone = await (await openBrowser()).newPage()
      await phone.goto(link)
      await expect(phone.getByRole('heading', { level: 1 })).toBeVisible()
      await expect(page.getByText('Let them send one now')).toBeVisible()
      const { send, drain } = await checkInDoor(server, { link } as never)
      const said = { readings: [{ drain, at: new Date().toISOString(), volumeMl: 60 }] }
      expect((await send(said, 'first')).status).toBeLessThan(300)
      await expect(page.getByText(/^Received .*, from: patient/)).toBeVisible()
    })

    await test.step('a reload comes back to it, link and all', async () => {
      await page.reload()
      await expect(page.getByRole('heading', { name: `${name} is enrolled` })).toBeVisible()
      await expect(page.getByLabel('Check-in link')).toHaveValue(link)
    })
  })

  test('keeps what was filled in over a fault and a reload, and stores a double press once', async ({
    page,
    server,
  }) => {
    await signIn(page, server, 'nurse')
    await page.goto('/patients/new')
    await enrolButton(page).click()
    await expect(page.getByLabel('Full name')).toBeFocused()
    await expect(page.getByLabel('Full name')).toHaveAccessibleDescription(/full name/i)
    await expectAccessible(page)

    const taken = number()
    await page.getByLabel('Full name').fill('Cosmo Underhill (invented)')
    await page.getByLabel('Birth date').fill('2015-06-01')
    await page.getByLabel('Record number').fill(taken)
    await placed(page).fill('2026-11-20T09:30')
    await page.getByLabel('Side').selectOption('left')
    await page.getByRole('button', { name: 'Another drain' }).click()
    const second = page.getByRole('region', { name: 'Drain 2' })
    await second.getByLabel('Kind').selectOption('collection')
    await expect(second.getByLabel('Flush at')).toHaveValue('09:00')
    await placed(second).fill('2026-11-20T09:30')
    await enrolButton(page).click()
    await expect(page.getByLabel('Birth date')).toHaveAccessibleDescription(/adult/)
    await expect(page.getByLabel('Birth date')).toBeFocused()

    await page.reload()
    await expect(page.getByLabel('Full name')).toHaveValue('Cosmo Underhill (invented)')
    await expect(second.getByLabel('Kind')).toHaveValue('collection')
    await page.getByLabel('Birth date').fill('1961-06-01')
    await enrolButton(page).dblclick()
    await expect(page.getByRole('heading', { name: 'Cosmo Underhill (invented) is enrolled' })).toBeFocused()

    await page.getByRole('link', { name: 'Enrol another' }).click()
    await expect(page.getByLabel('Full name')).toHaveValue('')
    await page.getByLabel('Full name').fill('Somebody Else (invented)')
    await page.getByLabel('Birth date').fill('1933-06-01')
    await page.getByLabel('Record number').fill(taken)
    await placed(page).fill('2026-11-20T09:30')
    await enrolButton(page).click()
    await expect(page.getByLabel('Record number')).toHaveAccessibleDescription(/is taken/)
    await page.getByRole('button', { name: 'Empty the form' }).click()
    await page.getByRole('button', { name: 'Press again to empty the form' }).click()
    await expect(page.getByLabel('Full name')).toHaveValue('')
  })
})

test('a discharge is enrolled from the list, past a like name, and leaves the list', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'nurse')
  await page.getByRole('link', { name: /^Discharges \d+ waiting$/ }).click()
  const rows = page.getByRole('row')
  await expect(rows.nth(1)).toContainText('Quilfeather, Ansel')
  await expect(rows.nth(1)).toContainText(/^\d+ days/)
  await expectAccessible(page)
  const before = (await rows.count()) - 1

  await page.getByRole('link', { name: 'Enrol Quilfeather, Ansel' }).click()
  await expect(page.getByLabel('Record number')).toHaveValue('LF-042901')
  const alike = page.getByRole('status', { name: 'Who is alike' })
  await expect(alike).toContainText('Ansel Quillfeather · 12 Aug 1955 · LF-040137')
  await placed(page).fill('2026-11-17T09:30')
  await enrolButton(page).click()
  const looked = alike.getByLabel('I looked: another person')
  await expect(looked).toBeFocused()
  await expect(alike).toContainText('Look whether this is the same person')
  await expectAccessible(page)
  await page.keyboard.press('Space')
  await enrolButton(page).click()
  await expect(page.getByRole('heading', { name: 'Quilfeather, Ansel is enrolled' })).toBeVisible()

  await page.getByRole('link', { name: `Discharges ${before - 1} waiting` }).click()
  await expect(page.getByRole('rowheader', { name: /Quilfeather/ })).toHaveCount(0)
  await expect(page.getByRole('region', { name: 'No longer waiting' })).toContainText('Quilfeather, Ansel')

  await test.step('another is set aside for a reason', async () => {
    await page.getByRole('button', { name: 'Set aside Amadou Rivercrest' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('button', { name: 'Set aside' }).click()
    await expect(dialog.getByLabel('Why')).toHaveAccessibleDescription(/Say why/)
    await dialog.getByLabel('Why').fill('drain taken out on the ward')
    await dialog.getByRole('button', { name: 'Set aside' }).click()
    await expect(page.getByText('Amadou Rivercrest is set aside.')).toBeVisible()
    await expect(page.getByRole('link', { name: `Discharges ${before - 2} waiting` })).toBeVisible()
  })

  await test.step('a file is looked at first, and taken in whole', async () => {
    const file = (...lines: string[]) => ({
      name: 'discharges.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(
        ['record_number,name,birth_date,phone,discharged_at,drain_kind,note', ...lines].join('\n'),
      ),
    })
    const good = 'F-1,Philippa Wren (invented),1950-01-02,,2026-11-20,bulb,'
    await page.getByLabel('CSV file').setInputFiles(file(good, 'F-2,No Date,,,2026-11-20,hose,'))
    const part = page.getByRole('region', { name: 'From a file' })
    await expect(part).toContainText('Line 3, birth_date: is missing')
    await expect(part).toContainText('Line 3, drain_kind: accepted: nephrostomy')
    await expect(part.getByRole('button', { name: /on the list/ })).toHaveCount(0)
    await page.getByLabel('CSV file').setInputFiles(file(good))
    await part.getByRole('button', { name: 'Put 1 person on the list' }).click()
    await expect(page.getByRole('rowheader', { name: /Philippa Wren/ })).toBeVisible()
    await page.getByLabel('CSV file').setInputFiles(file(good))
    await expect(part).toContainText('1 person in the file: 0 new; passed over: 1 person on the list already')
  })
})

test('the clinic’s usual orders of a kind are what enrolment offers', async ({
  page,
  server,
  openBrowser,
}) => {
  await signIn(page, server, 'charge-nurse')
  await page.goto('/settings/orders')
  await page.getByLabel('Pleural').check()
  const form = page.getByRole('region', { name: 'Pleural' })
  await expect(form).toContainText('Standard: the clinic has set none of its own')
  await expect(form.getByLabel('It holds, mL')).toHaveAccessibleDescription(/common practice, no source/)
  await form.getByLabel('Flush, mL').fill('5')
  await form.getByRole('button', { name: 'Save as a new version' }).click()
  await expect(form.getByLabel('Flush every, hours')).toHaveAccessibleDescription(/From 1 to 8784/)
  await form.getByLabel('Flush every, hours').fill('12')
  await form.getByLabel('Flush at').fill('8:00, 20:00')
  await expectAccessible(page)
  await form.getByRole('button', { name: 'Save as a new version' }).click()
  await expect(form).toContainText('Pleural: version 1 is saved.')
  await expect(page.getByRole('region', { name: 'Versions' })).toContainText('1, M. Aldana (invented)')
  await expect(page.getByRole('region', { name: 'Versions' })).toContainText(
    'flush 5 mL every 12 h at 08:00, 20:00',
  )

  const nurse = await (await openBrowser()).newPage()
  await signIn(nurse, server, 'nurse')
  await nurse.goto('/patients/new')
  await nurse.getByLabel('Kind').selectOption('pleural')
  await expect(nurse.getByLabel('Flush, mL')).toHaveValue('5')
  await expect(nurse.getByLabel('Flush at')).toHaveValue('08:00, 20:00')
})
