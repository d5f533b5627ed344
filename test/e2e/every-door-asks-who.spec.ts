/**
 * Every route of the house against who may: the routes are read from the app folder, the right each one needs is written down
 * here, once more and by hand, and so is the whole of what a pourer may see. A new page without a line here fails.
 */
import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { may, type Right, type Role } from '@/lib/auth/rights'
import { Visitor } from '@/lib/commands/bench/visitor'
import { buildFolder } from '@/lib/commands/start/build.mjs'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { mara, openHouse, setUp, signIn, type House, type Person } from '../support/house'

const needs: Readonly<Record<string, Right>> = {
  '/': 'home',
  '/account': 'home',
  '/diary': 'diary',
  '/find': 'recipe:read',
  '/panels': 'home',
  '/panels/new': 'panel:run',
  '/panels/[panelId]': 'panel:read',
  '/panels/[panelId]/cards': 'panel:run',
  '/panels/[panelId]/close': 'panel:run',
  '/panels/[panelId]/decide': 'decide',
  '/panels/[panelId]/export/columns': 'export',
  '/panels/[panelId]/export/panel': 'export',
  '/panels/[panelId]/export/r-script': 'export',
  '/panels/[panelId]/export/scores': 'export',
  '/panels/[panelId]/filling': 'panel:pour',
  '/panels/[panelId]/open': 'panel:run',
  '/panels/[panelId]/paper': 'panel:run',
  '/panels/[panelId]/phones': 'panel:run',
  '/panels/[panelId]/phones/reached': 'panel:run',
  '/panels/[panelId]/plan': 'panel:run',
  '/panels/[panelId]/progress': 'panel:progress',
  '/panels/[panelId]/result': 'panel:read',
  '/panels/[panelId]/serving': 'panel:pour',
  '/panels/[panelId]/sheet': 'panel:read',
  '/panels/[panelId]/tasters': 'panel:run',
  '/panels/[panelId]/tasters/[seat]': 'panel:run',
  '/panels/[panelId]/watch': 'panel:progress',
  '/panels/figures': 'panel:run',
  '/recipes': 'recipe:read',
  '/recipes/new': 'recipe:write',
  '/recipes/[recipeId]': 'recipe:read',
  '/recipes/[recipeId]/adopt': 'decide',
  '/recipes/[recipeId]/first-trial': 'recipe:write',
  '/recipes/[recipeId]/import': 'recipe:write',
  '/recipes/[recipeId]/levels': 'recipe:read',
  '/recipes/[recipeId]/money': 'recipe:write',
  '/recipes/[recipeId]/why': 'recipe:read',
  '/store': 'recipe:read',
  '/store/ingredients/new': 'recipe:write',
  '/store/ingredients/[ingredientId]': 'recipe:read',
  '/store/ingredients/[ingredientId]/edit': 'recipe:write',
  '/store/ingredients/[ingredientId]/price': 'recipe:write',
  '/store/preparations/new': 'recipe:write',
  '/store/preparations/[preparationId]': 'recipe:read',
  '/store/preparations/[preparationId]/edit': 'recipe:write',
  '/store/preparations/[preparationId]/batches/new': 'recipe:write',
  '/store/preparations/[preparationId]/batches/[batchId]': 'recipe:read',
  '/store/preparations/[preparationId]/batches/[batchId]/edit': 'recipe:write',
  '/store/vessels/new': 'recipe:write',
  '/store/vessels/[vesselId]': 'recipe:read',
  '/team': 'team',
  '/trials/[trialId]': 'recipe:read',
  '/trials/[trialId]/card': 'recipe:read',
  '/trials/[trialId]/compare': 'recipe:read',
  '/trials/[trialId]/edit': 'recipe:write',
  '/trials/[trialId]/file': 'recipe:read',
  '/trials/[trialId]/ladder': 'recipe:write',
  '/trials/[trialId]/scale': 'recipe:read',
  '/trials/[trialId]/vary': 'recipe:write',
  '/trials/[trialId]/weighings': 'recipe:write',
}

/** "lists and progress of an open panel, nothing else", and the doors that everybody on the team has */
const forPourers = [
  '/',
  '/account',
  '/panels',
  '/panels/[panelId]/filling',
  '/panels/[panelId]/progress',
  '/panels/[panelId]/serving',
  '/panels/[panelId]/watch',
]

const people: Readonly<Record<Exclude<Role, 'owner'>, Person>> = {
  developer: { name: 'Dev', email: 'dev@ferrysteps.example', password: 'seven wet ropes' },
  pourer: { name: 'Pia', email: 'pia@ferrysteps.example', password: 'nine tin buckets' },
  viewer: { name: 'Vik', email: 'vik@ferrysteps.example', password: 'four salt lamps' },
}

let house: House
let owner: Page
let db: Db
let built: string
const ids: Record<string, string> = { seat: '1' }

beforeAll(async () => {
  built = buildFolder(process.cwd(), '.next-e2e')
  house = await openHouse()
  owner = await house.desk()
})
afterAll(async () => {
  await db?.$disconnect()
  await house.close()
})

const visitor = () => new Visitor(`http://127.0.0.1:${house.app.port}`)
const filled = (route: string) => route.replace(/\[(\w+)\]/g, (_, name: string) => ids[name] ?? `no-${name}`)

/** What a chat program does with a link somebody pastes into it. */
async function preview(path: string): Promise<void> {
  for (const method of ['GET', 'HEAD', 'GET', 'OPTIONS']) await (await visitor().ask(path, { method })).text()
}

test('the set-up link survives being looked at, and works', async () => {
  await preview(new URL(house.app.setUpLink ?? 'missing:').pathname)
  await setUp(owner, house, 'With the demo café')
  await signIn(owner)
  db = openDatabase(house.app.databaseUrl)
  const open = await db.panel.findFirstOrThrow({ where: { stage: 'open' }, include: { cups: true } })
  const batch = await db.preparationBatch.findFirstOrThrow()
  ids['panelId'] = open.id
  ids['recipeId'] = open.recipeId
  ids['trialId'] = open.cups[0]?.trialId ?? ''
  ids['batchId'] = batch.id
  ids['preparationId'] = batch.preparationId
  ids['ingredientId'] = (await db.ingredient.findFirstOrThrow()).id
  ids['vesselId'] = (await db.vessel.findFirstOrThrow()).id
})

test.each(Object.entries(people))(
  'an invitation makes a %s, once, however often it was looked at',
  async (role, who) => {
    await owner.goto('/team')
    await owner.getByLabel('Role', { exact: true }).selectOption(role)
    await owner.getByRole('button', { name: 'Make an invitation link' }).click()
    const path = new URL(await owner.getByLabel('Invitation link', { exact: true }).inputValue()).pathname
    await preview(path)
    const desk = await house.desk()
    await desk.goto(path)
    await desk.getByLabel('Your name').fill(who.name)
    await desk.getByLabel('Email').fill(who.email)
    await desk.getByLabel('Password').fill(who.password)
    await desk.getByRole('button', { name: 'Join' }).click()
    await desk.waitForURL(/sign-in/)
    await desk.goto(path)
    await desk.getByText('This invitation is not open').waitFor()
    await signIn(desk, who)
  },
)

test('every route of the house has its line in this table', () => {
  const found = readdirSync('app/(house)', { recursive: true, encoding: 'utf8' })
    .map((file) => `/${file.replace(/\\/g, '/')}`)
    .filter((file) => /\/(page\.tsx|route\.ts)$/.test(file))
    .map((file) => file.replace(/\/[^/]*$/, '') || '/')
  expect(found.sort()).toEqual(Object.keys(needs).sort())
})

test('a pourer’s rights are the lists and the progress, and nothing else', () => {
  expect(Object.keys(needs).filter((route) => may('pourer', needs[route] ?? 'team'))).toEqual(forPourers)
})

/** Which of all routes let this visitor in; the others must say no before they say anything else. */
async function letIn(who: Visitor, refusal: { page: string; route: number }): Promise<string[]> {
  const open: string[] = []
  for (const route of Object.keys(needs)) {
    const method = route.endsWith('/weighings') ? 'POST' : 'GET'
    const answer = await who.ask(filled(route), { method })
    const body = await answer.text()
    const to = answer.headers.get('location')
    const refused = to === null ? answer.status === refusal.route : new URL(to, house.address).pathname === refusal.page
    if (!refused) open.push(route)
    else if (/syrup|cardamom|oat/i.test(body)) throw new Error(`${route} refuses, and tells all the same`)
  }
  return open
}

test('nobody without a sign-in is let in anywhere', async () => {
  expect(await letIn(visitor(), { page: '/sign-in', route: 401 })).toEqual([])
})

test.each(['developer', 'pourer', 'viewer'] as const)(
  'a %s is let in where the table says, and nowhere else',
  async (role) => {
    const member = visitor()
    await member.signIn(people[role].email, people[role].password)
    const allowed = Object.keys(needs).filter((route) => may(role, needs[route] ?? 'team'))
    expect(await letIn(member, { page: '/not-allowed', route: 403 })).toEqual(allowed)
  },
)

test('the owner is let in everywhere, so the refusals above are about the asker', async () => {
  const member = visitor()
  await member.signIn(mara.email, mara.password)
  expect(await letIn(member, { page: '/not-allowed', route: 403 })).toEqual(Object.keys(needs))
})

interface Act {
  readonly id: string
  readonly name: string
  readonly path: string
}

/** Every server action of the build, with a page it can be sent to. */
function actsOfTheBuild(): Act[] {
  const manifest = JSON.parse(readFileSync(`${built}/server/server-reference-manifest.json`, 'utf8')) as {
    node: Record<string, { exportedName: string; workers: Record<string, unknown> }>
  }
  return Object.entries(manifest.node).map(([id, { exportedName, workers }]) => {
    const worker = Object.keys(workers)[0] ?? ''
    return {
      id,
      name: exportedName,
      path:
        worker
          .replace(/^app/, '')
          .replace(/\/\([^/]*\)/g, '')
          .replace(/\/page$/, '') || '/',
    }
  })
}

const send = (who: Visitor, act: Act, words: readonly unknown[] = []) =>
  who.ask(filled(act.path), {
    method: 'POST',
    body: JSON.stringify(words),
    headers: { 'next-action': act.id, 'content-type': 'text/plain;charset=UTF-8' },
  })

const openDoors = ['acceptInviteAction', 'resetAction', 'setUpAction']
/** on one's own account */
const ownActs = ['changePasswordAction', 'endOtherSessionsAction', 'endSessionAction']
const pourerActs = [...ownActs, 'openFillingAction', 'openServingAction', 'tickAction']

test('an act sent by hand is refused before it does anything, whoever is not allowed it', async () => {
  const acts = actsOfTheBuild()
  expect(acts.length).toBeGreaterThan(40)
  const before = await db.auditRow.count()

  const refusedBy = async (who: Visitor, page: string, spared: readonly string[]) => {
    const through: string[] = []
    for (const act of acts.filter(({ name }) => !spared.includes(name))) {
      const answer = await send(who, act)
      await answer.text()
      if (answer.headers.get('x-action-redirect')?.split(';')[0] !== page) through.push(act.name)
    }
    return through
  }
  expect(await refusedBy(visitor(), '/sign-in', openDoors)).toEqual([])
  const pourer = visitor()
  await pourer.signIn(people.pourer.email, people.pourer.password)
  expect(await refusedBy(pourer, '/not-allowed', [...openDoors, ...pourerActs])).toEqual([])
  const viewer = visitor()
  await viewer.signIn(people.viewer.email, people.viewer.password)
  expect(await refusedBy(viewer, '/not-allowed', [...openDoors, ...ownActs])).toEqual([])
  const developer = visitor()
  await developer.signIn(people.developer.email, people.developer.password)
  const forOwners = acts.filter(({ path }) => path === '/team').map(({ name }) => name)
  expect(forOwners.length).toBeGreaterThan(3)
  const others = acts.map(({ name }) => name).filter((name) => !forOwners.includes(name))
  expect(await refusedBy(developer, '/not-allowed', others)).toEqual([])
  expect(await db.auditRow.count()).toBe(before)

  // the same letter from the owner goes through, so the refusals are not about its form
  const boss = visitor()
  await boss.signIn(mara.email, mara.password)
  const withdraw = acts.find(({ name }) => name === 'withdrawInviteAction')
  if (!withdraw) throw new Error('withdrawInviteAction is not in the build')
  const answer = await send(boss, withdraw, ['no-such-invitation'])
  expect(answer.status).toBe(200)
  expect(answer.headers.get('x-action-redirect')).toBeNull()
})

/** What is asked for behind a question mark, page by page. */
const asks: readonly (readonly [route: string, name: string])[] = [
  ['/sign-in', 'after'],
  ['/store', 'name'],
  ['/find', 'words'],
  ['/diary', 'before'],
  ['/diary', 'steps'],
  ['/panels/new', 'recipe'],
  ['/recipes/[recipeId]/levels', 'trial'],
  ['/recipes/[recipeId]/why', 'page'],
  ['/panels/[panelId]/paper', 'seat'],
  ['/panels/[panelId]/filling', 'opening'],
  ['/panels/[panelId]/serving', 'opening'],
  ['/panels/[panelId]/phones', 'try'],
  ['/trials/[trialId]/card', 'size'],
  ['/trials/[trialId]/compare', 'with'],
  ['/store/preparations/[preparationId]', 'before'],
]

test('whatever stands behind the question mark, a page answers', async () => {
  const boss = visitor()
  await boss.signIn(mara.email, mara.password)
  const broken: string[] = []
  for (const [route, name] of asks)
    for (const word of [`a&${name}=b`, 'constructor', '__proto__', 'x'.repeat(3000)]) {
      const who = route === '/sign-in' ? visitor() : boss
      const answer = await who.ask(`${filled(route)}?${name}=${word}`)
      await answer.text()
      if (answer.status >= 500) broken.push(`${route}?${name}=${word.slice(0, 20)}`)
    }
  expect(broken).toEqual([])
})

test('a role is read at each request: what is taken away is gone with the next page', async () => {
  const viewer = visitor()
  await viewer.signIn(people.viewer.email, people.viewer.password)
  expect((await viewer.ask('/recipes')).status).toBe(200)
  await owner.goto('/team')
  await owner.getByLabel(`Role of ${people.viewer.name}`).selectOption('pourer')
  await owner.getByRole('button', { name: `Change the role of ${people.viewer.name}` }).click()
  await owner.getByText(`${people.viewer.email} · pourer`).waitFor()
  expect((await viewer.ask('/recipes')).headers.get('location')).toBe('/not-allowed')
})

test('a changed password ends every session of that person, the one that changed it too', async () => {
  const elsewhere = visitor()
  await elsewhere.signIn(people.viewer.email, people.viewer.password)
  expect((await elsewhere.ask('/')).status).toBe(200)
  const desk = await house.desk()
  await signIn(desk, people.viewer)
  await desk.goto('/account')
  await desk.getByLabel('Present password').fill(people.viewer.password)
  await desk.getByLabel('New password').fill('another long one')
  await desk.getByRole('button', { name: 'Change the password' }).click()
  await desk.waitForURL(/sign-in/)
  expect((await elsewhere.ask('/')).headers.get('location')).toBe('/sign-in')
  await desk.goto('/')
  expect(new URL(desk.url()).pathname).toBe('/sign-in')
  await signIn(desk, { ...people.viewer, password: 'another long one' })
})

test('signing out ends the session for whoever copied its cookie, and one’s own page ends those elsewhere', async () => {
  const now: Person = { ...people.viewer, password: 'another long one' }
  const desk = await house.desk()
  const elsewhere = await house.desk()
  await signIn(desk, now)
  await signIn(elsewhere, now)
  const copied = async (page: Page) => {
    const cookies = await page.context().cookies()
    const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
    const answer = await fetch(`http://127.0.0.1:${house.app.port}/`, { headers: { cookie }, redirect: 'manual' })
    await answer.text()
    return answer.headers.get('location') ?? answer.status
  }
  const atDesk = await desk.context().cookies()
  expect([await copied(desk), await copied(elsewhere)]).toEqual([200, 200])
  await desk.goto('/account')
  await desk.getByRole('button', { name: 'Sign out everywhere else' }).click()
  await desk.getByRole('button', { name: 'Sign out everywhere else' }).waitFor({ state: 'detached' })
  expect([await copied(desk), await copied(elsewhere)]).toEqual([200, '/sign-in'])
  await desk.getByRole('button', { name: 'Sign out' }).click()
  await desk.waitForURL(/sign-in/)
  await desk.context().addCookies(atDesk)
  expect(await copied(desk)).toBe('/sign-in')
})

test('of the sign-in library’s own addresses only those that the form uses answer, and its errors are ours', async () => {
  const stranger = visitor()
  const library = [
    'signin',
    'signin/credentials',
    'signout',
    'session',
    'error?error=x',
    'verify-request',
    '_log',
    '__proto__',
  ]
  for (const path of [...library, 'callback/credentials']) {
    const answer = await stranger.ask(`/api/auth/${path}`)
    expect([path, answer.status, await answer.text()]).toEqual([path, 404, 'There is nothing here.'])
  }
  const sent = await stranger.ask('/api/auth/callback/credentials', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ email: { $ne: '' }, password: ['x'] }),
  })
  expect([sent.status, await sent.text()]).toEqual([415, 'Signing in and out takes a form.'])
})

test('a stranger’s guesses keep nobody out who signed in on their browser before', async () => {
  const now: Person = { ...people.viewer, password: 'another long one' }
  const known = await house.desk()
  await signIn(known, now)
  await known.goto('/account')
  await known.getByRole('button', { name: 'Sign out', exact: true }).click()
  await known.waitForURL(/sign-in/)
  for (let time = 1; time <= 5; time++)
    await expect(visitor().signIn(now.email, `guess ${time}`)).rejects.toThrow(/401/)
  await expect(visitor().signIn(now.email, now.password)).rejects.toThrow(/401/)
  await signIn(known, now)
})

test('whoever is taken off the team is out with the next request, and cannot sign in again', async () => {
  const developer = visitor()
  await developer.signIn(people.developer.email, people.developer.password)
  expect((await developer.ask('/recipes')).status).toBe(200)
  await owner.goto('/team')
  await owner.getByRole('button', { name: `Remove ${people.developer.name}` }).click()
  await owner.getByRole('button', { name: `Remove ${people.developer.name}` }).waitFor({ state: 'detached' })
  expect((await developer.ask('/recipes')).headers.get('location')).toBe('/sign-in')
  await expect(visitor().signIn(people.developer.email, people.developer.password)).rejects.toThrow(/401/)
})

test('a reset link survives being looked at, works once, and ends the sessions before', async () => {
  const before = visitor()
  await before.signIn(people.pourer.email, people.pourer.password)
  const made = spawnSync(
    process.execPath,
    ['lib/commands/start.mjs', '--run', 'lib/commands/reset-password.ts', people.pourer.email],
    {
      env: { ...process.env, NODE_ENV: 'production', DATABASE_URL: house.app.databaseUrl, PUBLIC_URL: '' },
      encoding: 'utf8',
    },
  )
  expect(made.status).toBe(0)
  const path = /\/reset\/[\w-]{43}/.exec(made.stdout)?.[0] ?? ''
  await preview(path)
  const desk = await house.desk()
  await desk.goto(path)
  await desk.getByLabel('New password').fill('eleven blue oars')
  await desk.getByRole('button', { name: 'Change the password' }).click()
  await desk.waitForURL(/sign-in/)
  await desk.goto(path)
  await desk.getByText('This link is not open').waitFor()
  expect((await before.ask('/')).headers.get('location')).toBe('/sign-in')
  await signIn(desk, { ...people.pourer, password: 'eleven blue oars' })
})

test('after five wrong passwords even the right one has to wait, and the page says how long', async () => {
  const desk = await house.desk({ expected: /status of 401/ })
  const attempt = async (password: string) => {
    await desk.goto('/sign-in')
    await desk.getByLabel('Email').fill(people.pourer.email)
    await desk.getByLabel('Password').fill(password)
    await desk.getByRole('button', { name: 'Sign in' }).click()
    return desk.getByRole('alert').filter({ hasText: 'Not signed in' }).innerText()
  }
  for (let time = 1; time <= 5; time++) expect(await attempt(`wrong ${time}`)).toContain('do not go together')
  expect(await attempt('eleven blue oars')).toMatch(/Too many tries\. Please wait \d+ seconds/)
  expect(house.complaints).toEqual([])
})
