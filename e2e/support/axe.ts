import AxeBuilder from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

/** axe finds nothing on the page as it stands: WCAG 2.2 AA and its own good practice. */
export async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze()
  const found = violations.map(
    ({ id, help, nodes }) => `${id}: ${help}\n  ${nodes.map(({ html }) => html).join('\n  ')}`,
  )
  expect(found, `axe on ${new URL(page.url()).pathname}`).toEqual([])
}
