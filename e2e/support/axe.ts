import AxeBuilder from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

/** axe finds nothing on the page as it stands: its standard rules, WCAG 2.2 AA and its own good practice. */
export async function expectAccessible(page: Page): Promise<void> {
  // The size of targets is new in 2.2, and axe leaves it out unless it is asked for.
  const axe = new AxeBuilder({ page }).options({ rules: { 'target-size': { enabled: true } } })
  expect(await foundBy(axe), whereOf(page)).toEqual([])
}

/** The rules that another width or scheme of colours can break. */
const ofTheLook = ['color-contrast', 'scrollable-region-focusable', 'landmark-unique', 'target-size']

/** axe finds nothing of what a narrow or a dark screen can spoil. Quick enough for a walk, which goes on past a fault. */
export async function expectReadable(page: Page): Promise<void> {
  const axe = new AxeBuilder({ page }).withRules(ofTheLook).setLegacyMode(true)
  expect.soft(await foundBy(axe), whereOf(page)).toEqual([])
}

const whereOf = (page: Page) => `axe on ${new URL(page.url()).pathname}`

async function foundBy(axe: AxeBuilder): Promise<string[]> {
  const { violations } = await axe.analyze()
  return violations.map(
    ({ id, help, nodes }) => `${id}: ${help}\n  ${nodes.map(({ html }) => html).join('\n  ')}`,
  )
}
