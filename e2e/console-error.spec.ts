import { test } from './support/test.ts'

// The watch on every page's console is itself watched: what is planted must fail, and does.

test.use({ data: 'empty' })
test.beforeEach(({ page }) => page.goto('/sign-in').then(() => {}))

test('a page without an error passes', () => {})

test.describe('an error fails the journey that', () => {
  test.beforeEach(() => test.fail())

  test('a page writes to the console', async ({ page }) => {
    await page.evaluate(() => console.error('planted'))
  })

  test('nothing on the page catches', async ({ page }) => {
    await page.evaluate(() => void setTimeout(() => JSON.parse('{'), 0))
    await page.waitForTimeout(200)
  })

  test('comes of an inline style, which the Content-Security-Policy blocks', async ({ page }) => {
    await page.evaluate(() =>
      document.body.insertAdjacentHTML('beforeend', '<p style="color: red">planted</p>'),
    )
  })

  test('comes from a second browser', async ({ openBrowser }) => {
    const second = await (await openBrowser()).newPage()
    await second.evaluate(() => console.error('planted'))
  })
})
