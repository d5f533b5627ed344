import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'

const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/** What axe finds against WCAG 2.2 AA on the page as it stands, one line per kind and place. */
export async function findAxeViolations(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze()
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
