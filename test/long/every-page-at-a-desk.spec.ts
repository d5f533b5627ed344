/** Every page in the light at 1280 px and at 320 px: what a phone in the dark shows stands in npm test. */
import type { Page, Response } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { findSidewaysScroll } from '../support/axe'
import { openHouse, setUp, signIn, type House } from '../support/house'
import { collectPaths, problemsOf } from '../support/house-paths'

let house: House
let paths: readonly string[]
let join: string

beforeAll(async () => {
  house = await openHouse()
  const desk = await house.desk()
  await setUp(desk, house, 'With the demo café')
  await signIn(desk)
  ;({ paths, join } = await collectPaths(desk))
})
afterAll(() => house.close())

const expected = /status of 404/

/** What a page sends that would be a style within it; what only scripts carry is no element. */
function stylesWithin(page: string): string[] {
  const elements = page.replace(/(<script\b[^>]*>).*?<\/script>/gs, '$1').match(/<[a-z][^>]*>/gi) ?? []
  return elements.filter((element) => /^<style\b|\sstyle\s*=/i.test(element))
}

/** What a page carries within it, or may do, that no page of the house does. */
async function looseEnds(answer: Response | null, path: string): Promise<string[]> {
  const within = stylesWithin((await answer?.text()) ?? '').map((element) => `${path}: ${element}`)
  const policy = answer?.headers()['content-security-policy'] ?? ''
  const isStrict = /style-src 'self'; style-src-attr 'none'/.test(policy) && !policy.includes('unsafe')
  return isStrict ? within : [...within, `${path}: ${policy}`]
}

async function hearForbidden(page: Page): Promise<readonly string[]> {
  const forbidden: string[] = []
  await page.exposeFunction('tellForbidden', (what: string) => forbidden.push(what))
  await page.addInitScript(() =>
    document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, documentURI }) => {
      const { tellForbidden } = window as unknown as { tellForbidden: (what: string) => void }
      tellForbidden(`${documentURI}: ${violatedDirective} ${blockedURI}`)
    }),
  )
  return forbidden
}

const wide = { width: 1280, height: 900 }
const narrow = { width: 320, height: 640 }

test('every page at a desk in the light meets it, at 320 px loses nothing, and carries no style within', async () => {
  const page = await house.desk({ expected })
  const forbidden = await hearForbidden(page)
  await signIn(page)
  const found: string[] = []
  const loose: string[] = []
  for (const path of paths) {
    loose.push(...(await looseEnds(await page.goto(path), path)))
    found.push(...(await problemsOf(page, path)))
    await page.setViewportSize(narrow)
    const beyond = await findSidewaysScroll(page)
    if (beyond > 0) found.push(`${path}: scrolls sideways by ${beyond} px in a window of 320`)
    await page.setViewportSize(wide)
  }
  for (const path of [join, '/taste', '/try/nothing', '/seat/nothing']) {
    loose.push(...(await looseEnds(await page.goto(path), path)))
  }
  expect(found).toEqual([])
  expect(loose).toEqual([])
  expect(forbidden).toEqual([])
  expect(house.complaints).toEqual([])
  expect(
    stylesWithin('<p class="a"><b style="color:red"></b><style></style><script>"<i style=x>"</script>'),
  ).toHaveLength(2)
})
