import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { askFrom } from './support/doors.ts'
import { type PrintedPage, pagesOf } from './support/pdf.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const placedAt = () => new Date(Date.now() - 14 * 86_400_000).toISOString()
const drains = () => [
  {
    label: 'left kidney',
    kind: 'nephrostomy',
    side: 'left',
    placedAt: placedAt(),
    vessel: 'bag',
    lengthMarkCm: 22,
    dressingType: 'clear film',
    flushAt: ['09:00', '21:00'],
    plan: {
      logEveryHours: 12,
      dressingEveryHours: 72,
      flush: { volumeMl: 10, everyHours: 12 },
      exchangeEveryDays: 90,
    },
  },
  {
    label: 'bile duct',
    kind: 'biliary',
    side: 'right',
    placedAt: placedAt(),
    dressingType: 'gauze',
    plan: { logEveryHours: 24, dressingEveryHours: 48, flush: { volumeMl: 10, everyHours: 24 } },
  },
  {
    label: 'belly pocket',
    kind: 'collection',
    placedAt: placedAt(),
    vessel: 'bulb',
    removalPlan: 'when less than 10 mL comes on two days in a row',
    plan: { logEveryHours: 24, dressingEveryHours: 48, flush: null },
  },
]

let count = 0
/** An invented patient with so many drains, through the door that the form uses. */
async function enrolled(page: Page, many: number): Promise<{ patientId: string; link: string }> {
  const body = {
    name: `Marigold Thistlewood ${'ABCDEFG'[count]} (invented)`,
    birthDate: `19${50 + ++count}-03-12`,
    recordNumber: `H-${Date.now()}`,
    timeZone: 'America/Denver',
    drains: Array.from({ length: many }, (_, i) => drains()[i % 3]),
  }
  return askFrom(page, 'POST', '/api/patients', body)
}

/** Chromium's print of the page as it stands, on paper of a size. */
const print = async (page: Page, format: 'A4' | 'Letter'): Promise<PrintedPage[]> =>
  pagesOf(await page.pdf({ format }))

const countPrints = (page: Page) =>
  page.addInitScript(() => {
    const counted = window as typeof window & { prints: number }
    counted.prints = 0
    window.print = () => {
      counted.prints += 1
    }
  })
const prints = (page: Page) => page.evaluate(() => (window as typeof window & { prints?: number }).prints)

test('the hand-out of three drains is one page and a log, and its code is the personal link', async ({
  page,
  server,
}) => {
  await countPrints(page)
  await signIn(page, server, 'nurse')
  const { patientId, link } = await enrolled(page, 3)
  await page.evaluate(([id, made]) => sessionStorage.setItem(`hand-out-link:${id}`, made ?? ''), [
    patientId,
    link,
  ] as const)
  await page.goto(`/patients/${patientId}/hand-out`)
  const whole = new URL(link, server.origin).href
  await expect(page.getByText(whole)).toBeVisible()
  await expect(page.getByRole('img', { name: /^Your own check-in/ })).toBeVisible()
  await expectAccessible(page)

  for (const [format, width, height] of [
    ['A4', 595, 842],
    ['Letter', 612, 792],
  ] as const) {
    const pages = await print(page, format)
    expect(pages).toHaveLength(2)
    const [front, log] = pages
    expect(front?.width).toBeCloseTo(width, -1)
    expect(front?.height).toBeCloseTo(height, -1)
    expect(front?.code).toBe(whole)
    for (const words of [
      'Marigold Thistlewood',
      'born March 12',
      'Flush 10 mL at 9:00 AM and 9:00 PM.',
      'left side',
      'Go to the emergency department',
      'Call your clinic now if',
      'It is not a diagnosis',
    ])
      expect(front?.text.replace(/\s+/g, ' ')).toContain(words)
    for (const words of ['Paper log', 'Marigold Thistlewood', 'born March 12', '3. belly pocket'])
      expect(log?.text.replace(/\s+/g, ' ')).toContain(words)
  }

  await page.getByRole('button', { name: 'Print with this link' }).click()
  await expect.poll(() => prints(page)).toBe(1)
  // Printed once, the link is forgotten: a further print needs a new one.
  await page.reload()
  await expect(page.getByRole('button', { name: 'Print with a new link' })).toBeVisible()
  expect((await print(page, 'A4'))[0]?.code).toBeNull()
})

test('a new link is made for the print, in the patient’s language', async ({ page, server }) => {
  await countPrints(page)
  await signIn(page, server, 'nurse')
  const { patientId } = await enrolled(page, 3)
  await page.goto(`/patients/${patientId}/hand-out`)
  const language = page.getByLabel('Language of the hand-out')
  await language.selectOption('es')
  await page.getByRole('button', { name: 'Print with a new link' }).click()
  await expect.poll(() => prints(page)).toBe(1)
  const spanish = await print(page, 'Letter')
  expect(spanish).toHaveLength(2)
  expect(spanish[0]?.code).toMatch(new RegExp(`^${server.origin}/check-in.*#[\\w-]{43}$`))
  expect(spanish[0]?.text).toContain('Traducción pendiente de revisión')

  await language.selectOption('ar')
  await expect(page.locator('article')).toHaveAttribute('dir', 'rtl')
  await expectAccessible(page)
  expect(await print(page, 'A4')).toHaveLength(2)

  await page.getByRole('button', { name: 'Print without a link' }).click()
  await expect.poll(() => prints(page)).toBe(2)
  expect((await print(page, 'A4')).map(({ code }) => code)).toEqual([null, null])
})

test('more drains go on to further pages, each with who it is for', async ({ page, server }) => {
  await signIn(page, server, 'nurse')
  const { patientId } = await enrolled(page, 5)
  await page.goto(`/patients/${patientId}/hand-out`)
  const pages = await print(page, 'A4')
  expect(pages.length).toBeGreaterThan(3)
  for (const { text } of pages) expect(text).toMatch(/Marigold Thistlewood . \(invented\) · born March 12/)
  expect(pages.map(({ text }) => text).join('\n')).toMatch(/4\. left kidney/)
})
