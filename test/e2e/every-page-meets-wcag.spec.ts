import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { findAxeViolations, findSidewaysScroll } from '../support/axe'
import { openHouse, setUp, signIn, takeSeat, type House } from '../support/house'

let house: House
const paths: string[] = []
let join = ''

beforeAll(async () => {
  house = await openHouse()
  const desk = await house.desk()
  await setUp(desk, house, 'With the demo café')
  await signIn(desk)
  await collectPaths(desk)
})
afterAll(() => house.close())

/** Every kind of page of the demo café, found by its links as a person would. */
async function collectPaths(page: Page): Promise<void> {
  const linkTo = async (from: string, name: string | RegExp) => {
    await page.goto(from)
    return (await page.getByRole('link', { name }).first().getAttribute('href')) ?? ''
  }
  const recipe = await linkTo('/recipes', /Iced date/)
  const trial = await linkTo(recipe, /30 g syrup$/)
  const trials = await trialsOf(page, recipe)
  const pack = await openPack(page)
  await page.goto(trial)
  await page.getByText('Change', { exact: true }).click()
  const instead = (await page.getByRole('link', { name: /^Instead of .*milk/i }).getAttribute('href')) ?? ''
  const open = await linkTo('/panels', 'Oat drink?')
  const decided = await linkTo('/panels', 'How sweet?')
  const closed = await linkTo('/panels', 'How strong?')
  const ingredient = await linkTo('/store', /Oat drink/)
  const preparation = await linkTo('/store', /Date-cardamom syrup/)
  const batch = await linkTo(preparation, 'Batch 1')
  const vessel = await linkTo('/store', /Tall glass/)
  const sheet = await giveOut(page, recipe)
  await page.goto(open)
  join = /\/join\/[\w-]{43}/.exec((await page.locator('main').innerText()).replace(/\s/g, ''))?.[0] ?? ''
  const under = (base: string, ...more: string[]) => [base, ...more.map((one) => `${base}/${one}`)]
  paths.push(
    ...[
      '/',
      '/recipes',
      '/recipes/new',
      '/panels',
      '/panels/new',
      '/store',
      '/store/changes',
      '/team',
      '/diary',
      '/diary?steps=all',
      '/account',
      '/bar',
      '/bar/packs',
      '/find?words=date',
    ],
    `/panels/new?recipe=${recipe.split('/').at(-1)}`,
    ...under(recipe, 'copy', 'edit', 'photos', 'first-trial', 'why', 'money', 'adopt', 'levels', 'import'),
    sheet,
    `${recipe}/home`,
    `${recipe}/home?taken=new`,
    `${recipe}/beside`,
    `${recipe}/beside?measures=home&${trials.map((id) => `trial=${id}`).join('&')}`,
    pack,
    ...under(
      trial,
      'vary',
      'ladder',
      'card',
      'card?size=receipt',
      'scale',
      'built',
      'edit',
      'make',
      'make?count=strained&amount=900&spare=x',
      'make?count=glasses&amount=12',
      'sizes',
      'sizes?ice=40&coffee=none',
    ),
    `${trial}?measures=home`,
    instead,
    ...under(open, 'tasters', 'watch', 'phones', 'filling', 'serving', 'cards', 'ballots?free=yes', 'paper', 'close'),
    ...under(decided, 'tasters/1', 'result', 'decide', 'sheet'),
    `${closed}/result`,
    ...['/store/ingredients/new', '/store/preparations/new', '/store/vessels/new', vessel],
    ...under(ingredient, 'edit', 'price'),
    ...under(preparation, 'edit', 'formula', 'batches/new', 'batches/new?from=last&grams=900'),
    `/bar/${recipe.split('/').at(-1)}`,
    `/bar/batches/${preparation.split('/').at(-1)}?grams=900&pot=640`,
    `/bar/batches/${preparation.split('/').at(-1)}?grams=none`,
    `/bar/labels/${batch.split('/').at(-1)}`,
    batch,
    ...[
      '/sign-in',
      '/not-allowed',
      '/nothing-here',
      `/read/${'x'.repeat(43)}`,
      `/home/${'x'.repeat(43)}`,
      `/setup/${'x'.repeat(43)}`,
      `/invite/${'x'.repeat(43)}`,
      `/reset/${'x'.repeat(43)}`,
    ],
  )
}

/** The ids of the first four trials of a recipe. */
async function trialsOf(page: Page, recipe: string): Promise<string[]> {
  await page.goto(recipe)
  const boxes = await page.getByRole('checkbox', { name: /side by side/ }).all()
  return Promise.all(boxes.slice(0, 4).map((box) => box.inputValue()))
}

/** The label of a pack that was opened just now. */
async function openPack(page: Page): Promise<string> {
  await page.goto('/bar/packs')
  await page.getByLabel('What', { exact: true }).selectOption({ index: 1 })
  await page.getByRole('button', { name: 'It is opened' }).click()
  await page.waitForURL(/\/bar\/packs\/[^/]+$/)
  return new URL(page.url()).pathname
}

/** A sheet for home of the house recipe, with one answer from paper. */
async function giveOut(page: Page, recipe: string): Promise<string> {
  await page.goto('/team')
  await page.getByRole('button', { name: 'Give sheets out' }).click()
  await page.getByRole('button', { name: 'Give no more sheets out' }).waitFor()
  await page.goto(`${recipe}/home`)
  await page.getByRole('button', { name: 'Make a sheet' }).click()
  await page.waitForURL(/\/home\/[^/]+$/)
  const sheet = new URL(page.url()).pathname
  await page.getByText('Type in an answer from paper').click()
  await page.getByLabel('What they changed').fill('Oat drink')
  await page.getByLabel('Their first name').fill('Ina')
  await page.getByRole('button', { name: 'Take it in' }).click()
  await page.waitForURL(/taken=new/)
  return sheet
}

async function look(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const path of paths) {
    await page.goto(path)
    found.push(...(await findAxeViolations(page)))
    const beyond = await findSidewaysScroll(page)
    if (beyond > 0) found.push(`${path}: scrolls sideways by ${beyond} px`)
  }
  return found
}

const expected = /status of 404/

test('every page of the house meets WCAG 2.2 AA on a phone, in the dark', async () => {
  const page = await house.phone({ dark: true, expected })
  await signIn(page)
  expect(await look(page)).toEqual([])
})

test('every page of the house meets WCAG 2.2 AA at a desk, in the light', async () => {
  const page = await house.desk({ expected })
  await signIn(page)
  expect(await look(page)).toEqual([])
  expect(house.complaints).toEqual([])
})

/** What a page sends that would be a style within it; what only scripts carry is no element. */
function stylesWithin(page: string): string[] {
  const elements = page.replace(/(<script\b[^>]*>).*?<\/script>/gs, '$1').match(/<[a-z][^>]*>/gi) ?? []
  return elements.filter((element) => /^<style\b|\sstyle\s*=/i.test(element))
}

test('no page carries a style within, of a taster neither, and none does what its policy forbids', async () => {
  const page = await house.desk({ expected })
  const forbidden: string[] = []
  await page.exposeFunction('tellForbidden', (what: string) => forbidden.push(what))
  await page.addInitScript(() =>
    document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, documentURI }) => {
      const { tellForbidden } = window as unknown as { tellForbidden: (what: string) => void }
      tellForbidden(`${documentURI}: ${violatedDirective} ${blockedURI}`)
    }),
  )
  await signIn(page)
  const within: string[] = []
  const loose: string[] = []
  for (const path of [...paths, join, '/taste', '/try/nothing', '/seat/nothing']) {
    const answer = await page.goto(path)
    within.push(...stylesWithin((await answer?.text()) ?? '').map((element) => `${path}: ${element}`))
    const policy = answer?.headers()['content-security-policy'] ?? ''
    if (!/style-src 'self'; style-src-attr 'none'/.test(policy) || policy.includes('unsafe')) loose.push(path)
  }
  expect(within).toEqual([])
  expect(loose).toEqual([])
  expect(forbidden).toEqual([])
  expect(
    stylesWithin('<p class="a"><b style="color:red"></b><style></style><script>"<i style=x>"</script>'),
  ).toHaveLength(2)
})

test('a page that is printed brings its paper and its foot along, and takes them away again', async () => {
  const page = await house.desk()
  await signIn(page)
  const pageRules = () =>
    page.evaluate(() =>
      [...document.styleSheets].flatMap((sheet) =>
        [...sheet.cssRules].filter((rule) => rule instanceof CSSPageRule).map((rule) => rule.cssText),
      ),
    )
  await page.goto(paths.find((path) => path.endsWith('/cards')) ?? 'missing:')
  expect((await pageRules()).join()).toMatch(/margin: 14mm 12mm 18mm/)
  const foot = await page.evaluate(async () => (await fetch('/print.css?foot=Cards"; } * { color: red }')).text())
  expect(foot).toContain('content: "Cards\\22 \\3b  \\7d  \\2a  \\7b  color\\3a  red \\7d "')
  await page.getByRole('link', { name: 'Recipes' }).first().click()
  await page.waitForURL(/\/recipes$/)
  expect(await pageRules()).toEqual([])
})

test('every screen of a taster’s phone meets it too, in both themes', async () => {
  for (const dark of [false, true]) {
    const phone = await house.phone({ dark })
    const found: string[] = []
    const check = async () => {
      found.push(...(await findAxeViolations(phone)))
      if ((await findSidewaysScroll(phone)) > 0) found.push('scrolls sideways')
    }
    await phone.goto(join)
    await check()
    await takeSeat(phone, join, dark ? 'Nox' : 'Lux')
    await check()
    await phone.getByRole('button', { name: /My cup says/ }).click()
    await check()
    await phone.getByRole('button', { name: 'like slightly', exact: true }).click()
    await phone.getByRole('button', { name: /^Next/ }).click()
    await check()
    expect(found).toEqual([])
  }
})

test('all nine steps stand on a small phone at once, each a target for a thumb', async () => {
  const phone = await house.phone()
  await takeSeat(phone, join, 'Thumb')
  await phone.getByRole('button', { name: /My cup says/ }).click()
  const steps = phone.getByRole('button', { name: /like/ })
  expect(await steps.count()).toBe(9)
  const boxes = await Promise.all(Array.from({ length: 9 }, (_, at) => steps.nth(at).boundingBox()))
  for (const box of boxes) {
    expect(box?.height).toBeGreaterThanOrEqual(44)
    expect((box?.y ?? 999) + (box?.height ?? 0)).toBeLessThanOrEqual(640)
  }
  expect(await steps.first().innerText()).toContain('like extremely')
})

test('a whole tasting is done by keyboard alone, one press of Tab after the other', async () => {
  const desk = await house.desk()
  await takeSeat(desk, join, 'Keys')
  const press = async (name: RegExp) => {
    for (let steps = 0; steps < 20; steps++) {
      const words = await desk.evaluate(() => {
        const at = document.activeElement
        return at instanceof HTMLButtonElement ? (at.textContent ?? '').trim() : ''
      })
      if (name.test(words)) return desk.keyboard.press('Enter')
      await desk.keyboard.press('Tab')
    }
    throw new Error(`no press of Tab leads to ${name}`)
  }
  for (const step of [/^like moderately$/, /^dislike slightly$/]) {
    await press(/^My cup says/)
    await press(step)
    await press(/^Next/)
    await press(/^Next/)
  }
  await desk.getByText('Everything is saved.').waitFor()
})

test('text at 200 % and a window of 320 px lose nothing: no page scrolls sideways, and the phone’s buttons are reached', async () => {
  const narrow = await house.desk({ expected })
  await narrow.setViewportSize({ width: 320, height: 640 })
  await signIn(narrow)
  const wide: string[] = []
  for (const path of paths) {
    await narrow.goto(path)
    const beyond = await findSidewaysScroll(narrow)
    if (beyond > 0) wide.push(`${path}: by ${beyond} px`)
  }
  expect(wide).toEqual([])

  const phone = await house.phone()
  await takeSeat(phone, join, 'Large')
  const letters = () =>
    phone
      .locator('button')
      .first()
      .evaluate((one) => parseFloat(getComputedStyle(one).fontSize))
  const usual = await letters()
  await phone.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'))
  expect(await letters()).toBe(2 * usual)
  await phone.getByRole('button', { name: /My cup says/ }).click()
  expect(await findSidewaysScroll(phone)).toBe(0)
  const steps = phone.getByRole('button', { name: /like/ })
  for (let at = 0; at < 9; at++) {
    const step = steps.nth(at)
    await step.scrollIntoViewIfNeeded()
    expect(
      await step.evaluate((one) => one.scrollWidth <= one.clientWidth && one.scrollHeight <= one.clientHeight + 1),
    ).toBe(true)
  }
  await steps.last().click()
  await phone.getByRole('button', { name: /^Next/ }).click()
  await phone.getByRole('textbox').waitFor()
  expect(house.complaints).toEqual([])
})
