/** Every kind of page of the demo café, and what is wrong with one. */
import type { Page } from 'playwright-core'
import { findAxeViolations, findSidewaysScroll } from './axe'

export interface HousePaths {
  /** pages of whoever is signed in, and those that anybody may open */
  readonly paths: readonly string[]
  /** the address of an open panel, for a phone */
  readonly join: string
}

/** Every kind of page of the demo café, found by its links as a person would. */
export async function collectPaths(page: Page): Promise<HousePaths> {
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
  const join = /\/join\/[\w-]{43}/.exec((await page.locator('main').innerText()).replace(/\s/g, ''))?.[0] ?? ''
  const under = (base: string, ...more: string[]) => [base, ...more.map((one) => `${base}/${one}`)]
  const paths = [
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
    ...under(
      open,
      'tasters',
      'watch',
      'phones',
      'filling',
      'serving',
      'cards',
      'ballots?free=yes',
      'mats',
      'labels',
      'sign',
      'paper',
      'close',
    ),
    `${open}/watch?seat=1`,
    ...under(decided, 'tasters/1', 'result', 'decide', 'sheet', 'serving'),
    `${closed}/result`,
    ...['/store/ingredients/new', '/store/preparations/new', '/store/vessels/new', '/store/scales', vessel],
    ...under(ingredient, 'edit', 'price'),
    ...under(preparation, 'edit', 'formula', 'batches/new', 'batches/new?from=last&grams=900'),
    `/bar/${recipe.split('/').at(-1)}`,
    `/bar/batches/${preparation.split('/').at(-1)}?grams=900&pot=640`,
    `/bar/batches/${preparation.split('/').at(-1)}?grams=none`,
    `/bar/batches/${preparation.split('/').at(-1)}/record?from=formula&grams=900`,
    `/bar/labels/${batch.split('/').at(-1)}`,
    batch,
    ...[
      '/sign-in',
      '/not-allowed',
      '/not-while-serving',
      '/nothing-here',
      `/read/${'x'.repeat(43)}`,
      `/home/${'x'.repeat(43)}`,
      `/setup/${'x'.repeat(43)}`,
      `/invite/${'x'.repeat(43)}`,
      `/reset/${'x'.repeat(43)}`,
    ],
  ]
  return { paths, join }
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

/** What is wrong with the page as it stands in its window. */
export async function problemsOf(page: Page, path: string): Promise<string[]> {
  const beyond = await findSidewaysScroll(page)
  const scrolls = beyond > 0 ? [`${path}: scrolls sideways by ${beyond} px`] : []
  return [...(await findAxeViolations(page)), ...scrolls]
}
