import AxeBuilder from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

/** axe finds nothing on the page as it stands: WCAG 2.2 AA and its own good practice. */
export const expectAccessible = (page: Page): Promise<void> => expectNothing(page, new AxeBuilder({ page }))

/** The rules that another width or scheme of colours can break. */
const ofTheLook = ['color-contrast', 'scrollable-region-focusable', 'landmark-unique', 'target-size']

/** axe finds nothing of what a narrow or a dark screen can spoil; quick enough for a walk over all pages. */
export const expectReadable = (page: Page): Promise<void> =>
  expectNothing(page, new AxeBuilder({ page }).withRules(ofTheLook).setLegacyMode(true))

async function expectNothing(page: Page, axe: AxeBuilder): Promise<void> {
  const { violations } = await axe.analyze()
  const found = violations.map(
    ({ id, help, nodes }) => `${id}: ${help}\n  ${nodes.map(({ html }) => html).join('\n  ')}`,
  )
  expect(found, `axe on ${new URL(page.url()).pathname}`).toEqual([])
}
