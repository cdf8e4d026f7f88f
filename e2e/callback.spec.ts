import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const NAME = 'Tove Alderley (invented)'
const SISTER = 'Runa Alderley (invented)'

/** Sends from the page, so with its session. */
const post = (page: Page, door: string, body: unknown) =>
  page.evaluate(
    async ([to, what]) => {
      const answer = await fetch(to as string, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json', 'Idempotency-Key': crypto.randomUUID() },
        body: JSON.stringify(what),
      })
      if (!answer.ok) throw new Error(`${to}: ${answer.status} ${await answer.text()}`)
    },
    [door, body] as const,
  )
const contact = (name: string, relation: string, mayDisclose: string) => ({
  name,
  relation,
  phone: '+1 555 0142',
  email: null,
  mayCall: true,
  mayVoicemail: false,
  mayDisclose,
})

/** A patient with a sister to call, whose tube is out. */
async function beginning(page: Page, patientId: string) {
  const door = `/api/patients/${patientId}`
  await post(page, `${door}/details`, {
    interpreter: true,
    profile: {
      contacts: [contact(NAME, 'self', 'everything'), contact(SISTER, 'sister', 'clinic-name')],
      checkInLanguage: 'en',
      anticoagulant: null,
      immunosuppressed: null,
      allergies: null,
      thermometer: null,
      teachBack: null,
      reminders: { channel: 'none', at: '09:00' },
    },
    why: 'asked on the phone',
  })
  const { drain, at } = await page.evaluate(async (to) => {
    const { record, asOf } = await (await fetch(to)).json()
    return { drain: record.drains[0].id, at: asOf }
  }, door)
  await post(page, `${door}/reports`, {
    symptoms: { at, temperatureC: 36.8, drains: [{ drain, position: 'out' }] },
  })
}

test('three tries in vain, the next contact, an outcome that fits, taken back, recorded again, corrected', async ({
  page,
  server,
}) => {
  test.setTimeout(120_000)
  const { patientId } = await enrolPerson(server, NAME)
  await signIn(page, server, 'nurse')
  await beginning(page, patientId)
  await page.goto(`/patients/${patientId}`)
  const dialog = page.getByRole('dialog')
  const record = dialog.getByRole('button', { name: 'Record the call' })
  const open = async () => {
    await page.getByRole('button', { name: 'Record the call' }).click()
    await expect(dialog.getByText('may be told that the clinic calls')).toBeVisible()
  }

  await test.step('tries in vain close nothing and lead on by the clinic’s rule', async () => {
    for (const says of [/Next: Try again at/, /Next: Try again at/, /Next: Call Runa Alderley/]) {
      await open()
      await dialog.getByLabel('No answer').check()
      await record.click()
      await expect(dialog).toBeHidden()
      await expect(page.getByText(says)).toBeVisible()
    }
    await expect(page.getByText(/Not reached so far\. Call Runa/)).toBeVisible()
    await open()
    await dialog.getByLabel(SISTER).check()
    await dialog.getByLabel('No answer').check()
    await expect(dialog.getByText(/Next by the clinic’s rule: Tell the person on call/)).toBeVisible()
    await dialog.getByRole('button', { name: 'Cancel' }).click()
  })

  await test.step('what is at once is not closed by an outcome that does not fit', async () => {
    await open()
    await dialog.getByLabel(SISTER).check()
    await dialog.getByLabel('Reached', { exact: true }).check()
    await dialog.getByLabel('Helper').check()
    await dialog.getByLabel(/An interpreter helped/).check()
    await dialog.getByLabel('Nothing needed').check()
    await dialog.getByLabel(/Drain out/).check()
    await dialog.getByRole('button', { name: 'In 4 hours' }).click()
    await record.click()
    await expect(dialog.getByText(/This does not close what is at once \(drain out\)/)).toBeVisible()
    await expectAccessible(page)
    await dialog.getByLabel('Nothing needed').uncheck()
    await dialog.getByLabel('To the emergency department').check()
    await dialog.getByLabel('Yes').check()
    await record.dblclick()
    await expect(dialog).toBeHidden()
    await expect(page.getByText('Closed one flag.')).toBeVisible()
  })

  await test.step('taken back, it is struck out, and the flag stands as before', async () => {
    await page.getByRole('button', { name: /^Undo/ }).click()
    await expect(page.getByText(`The call to ${NAME} is taken back`)).toBeVisible()
    await expect(page.locator('del').filter({ hasText: 'Closed one flag.' })).toBeVisible()
    await expect(page.getByText(/Not reached so far\. Call Runa/)).toBeVisible()
  })

  await test.step('recorded again, and corrected: both stay', async () => {
    await open()
    await dialog.getByLabel('Reached', { exact: true }).check()
    await dialog.getByLabel('Patient', { exact: true }).check()
    await dialog.getByLabel('To the emergency department').check()
    await dialog.getByLabel(/Drain out/).check()
    await dialog.getByRole('button', { name: 'In 4 hours' }).click()
    await record.click()
    await expect(dialog).toBeHidden()
    const calls = page.locator('section').filter({ has: page.getByRole('heading', { name: 'Calls' }) })
    await expect(calls.getByText('Closed one flag.')).toHaveCount(2)
    await calls
      .getByRole('button', { name: /^Correct/ })
      .first()
      .click()
    await dialog.getByLabel('Helper').check()
    await dialog.getByLabel('Why it is corrected').fill('It was the sister who spoke.')
    await expectAccessible(page)
    await dialog.getByRole('button', { name: 'Correct the call' }).click()
    await expect(dialog).toBeHidden()
    await expect(calls.getByText(/Corrected .* “It was the sister who spoke\.”/)).toBeVisible()
    await expect(calls.locator('del')).toHaveCount(2)
    await expectAccessible(page)
  })
})
