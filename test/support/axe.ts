import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'

const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/**
 * What axe finds against WCAG 2.2 AA on the page as it stands, one line per kind and place. Its legacy mode looks into no frame of
 * another origin, and no page has one; without it every look opens a window of its own, which takes longer than the look.
 */
export async function findAxeViolations(page: Page): Promise<string[]> {
  const options = { runOnly: tags, resultTypes: ['violations' as const] }
  const { violations } = await new AxeBuilder({ page }).setLegacyMode(true).options(options).analyze()
  return violations.flatMap((violation) =>
    violation.nodes.map(
      (node) =>
        `${new URL(page.url()).pathname}: ${violation.id} at ${node.target.join(' ')}: ${node.failureSummary ?? ''}`,
    ),
  )
}

/** Does the page scroll sideways? Pixels beyond the window's width. */
export async function findSidewaysScroll(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
}
