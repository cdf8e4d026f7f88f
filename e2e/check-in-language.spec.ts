import type { Page } from '@playwright/test'
import { expectKind, openLink, phone, screen, within } from './support/check-in.ts'
import { enrolPerson } from './support/person.ts'
import { expect, test } from './support/test.ts'

// The same page in the language of the person: Spanish from the link to the receipt, Arabic from right to left.

test.use(phone)

const seguir = (page: Page) => page.getByRole('button', { name: 'Seguir' }).click()
const choose = (page: Page, language: string) => page.getByRole('link', { name: language }).click()

async function untilOutput(page: Page) {
  await screen(page, '¿Cómo se siente?')
  await page.getByLabel('Nada de esto').check()
  await seguir(page)
  await screen(page, /El tubo/)
  await page.getByLabel('Donde está siempre').check()
  await within(page, /alrededor del tubo/)
    .getByLabel('No', { exact: true })
    .check()
  await within(page, /por el tubo/)
    .getByLabel('Sí')
    .check()
  await seguir(page)
  await screen(page, /Lo que salió/)
}

async function fromOutputToReceipt(page: Page) {
  await screen(page, /Lavado/)
  await within(page, /Hizo el lavado/)
    .getByLabel('No')
    .check()
  await seguir(page)
  await screen(page, /Vendaje/)
  await page.getByLabel('Limpio y seco').check()
  await within(page, /Cambió el vendaje/)
    .getByLabel('No')
    .check()
  await seguir(page)
  await screen(page, 'Temperatura y dolor')
  await page.getByLabel('¿Qué temperatura tiene?').fill('37,1')
  await within(page, /escalofríos/)
    .getByLabel('No', { exact: true })
    .check()
  await page.getByLabel('2', { exact: true }).check()
  await seguir(page)
  await screen(page, '¿Es correcto?')
}

test('a report in Spanish: ounces shown back, the sum asked once, what was not measured', async ({
  page,
  server,
}) => {
  test.setTimeout(180_000)
  const person = await enrolPerson(server, 'Marisol Quintero-Vale (invented)')
  await openLink(page, person.link)
  await choose(page, 'Español')
  await expect(page.locator('html')).toHaveAttribute('lang', 'es')
  await expect(page.getByText(/espera la revisión de un traductor/)).toBeVisible()
  await expectKind(page)

  await untilOutput(page)
  await page.getByLabel('Lo medí').check()
  await page.getByLabel('¿Cuánto?').fill('12')
  await page.getByLabel('onzas').check()
  await expect(page.getByText('12 oz = 355 mL', { exact: true })).toBeVisible()
  await seguir(page)
  await expect(page.getByText('Elija una respuesta.').last()).toBeVisible()
  await page.getByLabel('Una vez', { exact: true }).check()
  await seguir(page)
  await expect(page.getByText('12 oz = 355 mL, ¿es correcto?').last()).toBeVisible()
  await expectKind(page)
  await page.getByRole('button', { name: 'Sí, es correcto' }).click()
  await fromOutputToReceipt(page)
  await expect(page.getByText('12 oz = 355 mL', { exact: true })).toBeVisible()
  await expectKind(page)
  await page.getByRole('button', { name: 'Enviar a la clínica' }).click()
  await screen(page, 'La clínica tiene su reporte')
  await expectKind(page)

  // The next report: the sum is not asked again, and an emptying that was not measured has its own time.
  await page.getByRole('button', { name: 'Empezar otro reporte' }).click()
  await untilOutput(page)
  await page.getByLabel('Lo medí').check()
  await page.getByLabel('¿Cuánto?').fill('200')
  await expect(page.getByText('una sola vez que vació, como nos dijo antes')).toBeVisible()
  await expect(page.getByLabel('Una vez', { exact: true })).toHaveCount(0)
  await page.getByLabel('También vacié una vez sin medir').check()
  const unmeasured = within(page, /Cuándo vació sin medir/)
  await unmeasured.getByLabel('Día').selectOption({ label: 'ayer' })
  await unmeasured.getByLabel('Hora').fill('20:15')
  await expectKind(page)
  await seguir(page)
  await expect(page.getByText('Usted puso 200. ¿Ese número está en mL?')).toBeVisible()
  await page.getByRole('button', { name: 'Sí, está en mL' }).click()
  await fromOutputToReceipt(page)
  await page.getByRole('button', { name: 'Enviar a la clínica' }).click()
  await screen(page, 'La clínica tiene su reporte')

  const readings = (await person.reports()).map((report) => report.readings)
  expect(readings).toMatchObject([[{ volumeMl: 355 }], [{ volumeMl: null }, { volumeMl: 200 }]])
  expect(readings[1]?.[0]?.at).toMatch(/T0[23]:15:00/) // 20:15 in Denver
})

test('not measured is an answer of its own, and the picture fills in the number', async ({
  page,
  server,
}) => {
  const person = await enrolPerson(server, 'Anselm Ruhe-Pardo (invented)')
  await openLink(page, person.link)
  await choose(page, 'Español')
  await untilOutput(page)
  await page.getByLabel('Lo medí').check()
  const picture = page.getByRole('slider', { name: /Su bolsa/ })
  await picture.click({ position: { x: 40, y: 130 } })
  const volume = page.getByLabel('¿Cuánto?')
  await expect(volume).toHaveValue(/^\d+50$|^\d00$/)
  const tapped = Number(await volume.inputValue())
  await picture.press('ArrowUp')
  await expect(volume).toHaveValue(String(tapped + 50))
  await expect(picture).toHaveAttribute('aria-valuetext', `${tapped + 50} mL`)

  await page.getByLabel('Salió algo, pero no pude medir').check()
  await page.getByLabel('Amarillo').check()
  await seguir(page)
  await fromOutputToReceipt(page)
  await expect(page.getByText('Salió algo, pero no pude medir')).toBeVisible()
  await page.getByRole('button', { name: 'Enviar a la clínica' }).click()
  await screen(page, 'La clínica tiene su reporte')
  expect((await person.reports()).at(-1)?.readings).toMatchObject([{ volumeMl: null, appearance: 'straw' }])
})

test('Arabic from right to left, at 320 pixels, with the answers given before', async ({ page, server }) => {
  const person = await enrolPerson(server, 'Salma Reyhan-Holt (invented)')
  await openLink(page, person.link)
  await page.getByLabel('Dizzy or light-headed').check()
  await choose(page, 'العربية')
  await screen(page, 'كيف تشعر؟')
  await expect(page.locator('html')).toHaveAttribute('dir', 'rtl')
  await expect(page.getByLabel('دوخة'), 'nothing is lost by another language').toBeChecked()
  await expectKind(page)
  const mark = await page.getByLabel('دوخة').boundingBox()
  expect(mark?.x, 'the mark stands at the right').toBeGreaterThan(200)

  const go = () => page.getByRole('button', { name: 'متابعة' }).click()
  await go()
  await screen(page, /الأنبوب/)
  await page.getByLabel('في مكانه المعتاد').check()
  for (const question of [/حول الأنبوب/, /من الأنبوب/])
    await within(page, question).getByLabel('لا', { exact: true }).check()
  await expectKind(page)
  await go()
  await page.getByLabel('قسته').check()
  await page.getByLabel('كم المقدار؟').fill('٢٥٠')
  await expect(page.getByText(/250/).first()).toBeVisible()
  await within(page, /متى أفرغت؟/)
    .getByLabel('قبل ذلك')
    .check()
  await expectKind(page)
  await page.reload()
  await expect(page.locator('html'), 'the choice is kept').toHaveAttribute('dir', 'rtl')
})

test('the language is there before any script', async ({ openBrowser }) => {
  const context = await openBrowser({ ...phone, javaScriptEnabled: false, locale: 'es-MX' })
  const page = await context.newPage()
  await page.goto('/check-in')
  await expect(page.locator('html')).toHaveAttribute('lang', 'es')
  await expect(page.getByText('En una emergencia, llame')).toBeVisible()
  await page.getByRole('link', { name: 'العربية' }).click()
  await expect(page.locator('html')).toHaveAttribute('dir', 'rtl')
  await expect(page.getByText('اتصل برقم الطوارئ')).toBeVisible()
})
