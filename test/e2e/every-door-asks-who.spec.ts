/**
 * Who may what: every page, route handler and act of the house × every kind of visitor, asked of a running house. The doors and
 * their rights are read from the sources; each right is written down here, once more and by hand, and so is the whole of what
 * a pourer may see. A new page or act without a line here fails.
 */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { hashInTurn } from '@/lib/auth/password'
import { isRole, may, rights, type Right, type Role } from '@/lib/auth/rights'
import { sitDown } from '@/lib/commands/bench/phones'
import { Visitor } from '@/lib/commands/bench/visitor'
import { buildFolder } from '@/lib/commands/start/build.mjs'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { chooseHearing, makeHomeSheet } from '@/lib/tasks/home/keep-home-sheet'
import { typeInHomeAnswer } from '@/lib/tasks/home/take-in-answer'
import { worldOf } from '@/lib/tasks/world'
import { doorsOfApp, type Door } from '../support/doors'
import { dump, type Rows } from '../support/dump'
import { mara, openHouse, setUp, shoot, signIn, type House, type Person } from '../support/house'

const needs: Readonly<Record<string, Right>> = {
  '/': 'home',
  '/account': 'home',
  '/bar': 'bar:make',
  '/bar/[recipeId]': 'bar:make',
  '/bar/[recipeId]/weighings': 'bar:make',
  '/bar/batches/[preparationId]': 'bar:make',
  '/bar/batches/[preparationId]/record': 'bar:make',
  '/bar/labels/[batchId]': 'bar:make',
  '/bar/packs': 'bar:make',
  '/bar/packs/[packId]': 'bar:make',
  '/diary': 'diary',
  '/find': 'recipe:read',
  '/panels': 'home',
  '/panels/new': 'panel:run',
  '/panels/[panelId]': 'panel:read',
  '/panels/[panelId]/ballots': 'panel:run',
  '/panels/[panelId]/cards': 'panel:run',
  '/panels/[panelId]/close': 'panel:run',
  '/panels/[panelId]/decide': 'decide',
  '/panels/[panelId]/export/columns': 'export',
  '/panels/[panelId]/export/dose': 'export',
  '/panels/[panelId]/export/just-right': 'export',
  '/panels/[panelId]/export/panel': 'export',
  '/panels/[panelId]/export/r-script': 'export',
  '/panels/[panelId]/export/scores': 'export',
  '/panels/[panelId]/export/words': 'export',
  '/panels/[panelId]/filling': 'panel:pour',
  '/panels/[panelId]/labels': 'panel:run',
  '/panels/[panelId]/mats': 'panel:run',
  '/panels/[panelId]/sign': 'panel:run',
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
  '/photos/[photoId]': 'recipe:read',
  '/recipes': 'recipe:read',
  '/recipes/new': 'recipe:write',
  '/recipes/[recipeId]': 'recipe:read',
  '/recipes/[recipeId]/adopt': 'decide',
  '/recipes/[recipeId]/beside': 'recipe:read',
  '/recipes/[recipeId]/copy': 'recipe:write',
  '/recipes/[recipeId]/edit': 'recipe:write',
  '/recipes/[recipeId]/first-trial': 'recipe:write',
  '/recipes/[recipeId]/home': 'recipe:read',
  '/recipes/[recipeId]/home/[sheetId]': 'recipe:read',
  '/recipes/[recipeId]/home/[sheetId]/file': 'recipe:write',
  '/recipes/[recipeId]/import': 'recipe:write',
  '/recipes/[recipeId]/levels': 'recipe:read',
  '/recipes/[recipeId]/money': 'recipe:write',
  '/recipes/[recipeId]/photos': 'recipe:read',
  '/recipes/[recipeId]/why': 'recipe:read',
  '/store': 'recipe:read',
  '/store/changes': 'recipe:read',
  '/store/ingredients/new': 'recipe:write',
  '/store/ingredients/[ingredientId]': 'recipe:read',
  '/store/ingredients/[ingredientId]/edit': 'recipe:write',
  '/store/ingredients/[ingredientId]/price': 'recipe:write',
  '/store/preparations/new': 'recipe:write',
  '/store/preparations/[preparationId]': 'recipe:read',
  '/store/preparations/[preparationId]/edit': 'recipe:write',
  '/store/preparations/[preparationId]/formula': 'recipe:write',
  '/store/preparations/[preparationId]/batches/new': 'recipe:write',
  '/store/preparations/[preparationId]/batches/[batchId]': 'recipe:read',
  '/store/preparations/[preparationId]/batches/[batchId]/edit': 'recipe:write',
  '/store/scales': 'recipe:write',
  '/store/vessels/new': 'recipe:write',
  '/store/vessels/[vesselId]': 'recipe:read',
  '/team': 'team',
  '/trials/[trialId]': 'recipe:read',
  '/trials/[trialId]/built': 'recipe:read',
  '/trials/[trialId]/card': 'recipe:read',
  '/trials/[trialId]/compare': 'recipe:read',
  '/trials/[trialId]/edit': 'recipe:write',
  '/trials/[trialId]/file': 'recipe:read',
  '/trials/[trialId]/instead/[lineKey]': 'recipe:read',
  '/trials/[trialId]/ladder': 'recipe:write',
  '/trials/[trialId]/make': 'recipe:read',
  '/trials/[trialId]/scale': 'recipe:read',
  '/trials/[trialId]/sizes': 'recipe:read',
  '/trials/[trialId]/vary': 'recipe:write',
  '/trials/[trialId]/weighings': 'recipe:write',
}

/** pages and routes whose key is something else: a link, a card, a seat, or nothing at all */
const openToAll = [
  '/home/[token]',
  '/home/home.css',
  '/invite/[token]',
  '/join/[token]',
  '/not-allowed',
  '/not-while-serving',
  '/print.css',
  '/read/[token]',
  '/reset/[token]',
  '/seat/[token]',
  '/seat/[token]/kept',
  '/setup/[token]',
  '/sign-in',
  '/taste',
  '/taste/cup',
  '/taste/kept',
  '/taste/pass',
  '/taste/scores',
  '/taste/sets',
  '/taste/state',
  '/taste/taste.css',
  '/taste/taste.js',
  '/try/[token]',
]

/** what each right lets one do */
const acts: Readonly<Record<string, readonly string[]>> = {
  'no right': ['acceptInviteAction', 'resetAction', 'setUpAction'],
  home: ['changePasswordAction', 'endOtherSessionsAction', 'endSessionAction'],
  'recipe:write': [
    'addPhotoAction',
    'addPriceAction',
    'alternativesAction',
    'archiveBatchAction',
    'archiveIngredientAction',
    'archivePreparationAction',
    'archiveRecipeAction',
    'archiveTrialAction',
    'archiveVesselAction',
    'benchNoteAction',
    'branchTrialAction',
    'changeMoneyAction',
    'changePreparationAction',
    'changeRecipeAction',
    'changeTrialAction',
    'copyRecipeAction',
    'correctBatchAction',
    'correctIngredientAction',
    'correctVesselAction',
    'endHomeLinkAction',
    'enterIngredientAction',
    'enterVesselAction',
    'firstTrialAction',
    'forgetHomeAction',
    'formulaFromBatchAction',
    'importTrialAction',
    'keepCountsAction',
    'keepFormulaAction',
    'keepScalesAction',
    'keepSharesAction',
    'ladderAction',
    'lookedAtAction',
    'makeHomeLinkAction',
    'makeHomeSheetAction',
    'makeInsteadAction',
    'nameLevelAction',
    'noteAction',
    'pasteHomeAnswerAction',
    'recordBatchAction',
    'sizePriceAction',
    'startPreparationAction',
    'startRecipeAction',
    'strikePriceAction',
    'takePhotoOutAction',
    'takeWeightsAction',
    'tastedAction',
    'typeInHomeAnswerAction',
    'withdrawHomeSheetAction',
  ],
  'panel:run': [
    'addSeatsAction',
    'callOffAction',
    'changePlanAction',
    'changeSeatAction',
    'chooseAddressAction',
    'closeAction',
    'discardAction',
    'enterPaperAction',
    'forgetTasterAction',
    'openAction',
    'planAction',
    'putOnPaperAction',
    'setAsideAction',
    'startTryAction',
    'takeBackInAction',
    'testAgainAction',
  ],
  'bar:make': [
    'logCoolingAction',
    'openPackAction',
    'packThrownAwayAction',
    'packUsedUpAction',
    'recordBarBatchAction',
    'strikeCoolingAction',
    'throwAwayAction',
  ],
  'panel:pour': ['openFillingAction', 'openServingAction', 'tickAction'],
  decide: ['adoptAction', 'decideAction', 'endSharingAction', 'shareAction'],
  team: ['changeRoleAction', 'forgetLeaverAction', 'inviteAction', 'removeMemberAction', 'withdrawInviteAction'],
  cafe: ['changeCafeAction', 'chooseHearingAction', 'chooseNameDaysAction'],
}

/** "lists and progress of an open panel, and the bar", and the doors that everybody on the team has */
const forPourers = [
  '/',
  '/account',
  '/bar',
  '/bar/[recipeId]',
  '/bar/[recipeId]/weighings',
  '/bar/batches/[preparationId]',
  '/bar/batches/[preparationId]/record',
  '/bar/labels/[batchId]',
  '/bar/packs',
  '/bar/packs/[packId]',
  '/panels',
  '/panels/[panelId]/filling',
  '/panels/[panelId]/progress',
  '/panels/[panelId]/serving',
  '/panels/[panelId]/watch',
]

const people: Readonly<Record<Exclude<Role, 'owner'>, Person>> = {
  developer: { name: 'Dev', email: 'dev@ferrysteps.example', password: 'seven wet ropes' },
  pourer: { name: 'Pia', email: 'pia@ferrysteps.example', password: 'nine tin buckets' },
  bar: { name: 'Bea', email: 'bea@ferrysteps.example', password: 'eleven brass taps' },
  viewer: { name: 'Vik', email: 'vik@ferrysteps.example', password: 'four salt lamps' },
}
const removed: Person = { name: 'Remy', email: 'remy@ferrysteps.example', password: 'two green ladders' }
const elsewhere: Person = { name: 'Sidonie', email: 'sidonie@anotherkiosk.example', password: 'five cold kettles' }

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
  const milk = { trialId: ids['trialId'], ingredient: { kind: 'milk' } }
  ids['lineKey'] = String((await db.trialLine.findFirstOrThrow({ where: milk })).position)
  ids['seats'] = String(open.seatCount)
  ids['batchId'] = batch.id
  ids['sheetId'] = await giveOut(open.recipeId, ids['trialId'])
  ids['preparationId'] = batch.preparationId
  ids['ingredientId'] = (await db.ingredient.findFirstOrThrow()).id
  ids['vesselId'] = (await db.vessel.findFirstOrThrow()).id
  ids['levelId'] = (await db.costLevel.findFirst())?.id ?? 'no-such'
  ids['priceId'] = (await db.ingredientPrice.findFirstOrThrow({ where: { ingredientId: ids['ingredientId'] } })).id
})

/** A sheet for home of what an open panel pours, with an answer. */
async function giveOut(recipeId: string, trialId: string): Promise<string> {
  const member = await db.membership.findFirstOrThrow({ include: { cafe: true } })
  const reader = { ...member, cafe: member.cafe }
  const world = worldOf(db)
  await chooseHearing(world, reader, true)
  const made = await makeHomeSheet(world, reader, recipeId, trialId)
  if (!made.ok) throw new Error(made.reason)
  const said = { liking: 4, changed: 'Quillberry instead', further: '', name: 'Zwenna' }
  await typeInHomeAnswer(world, reader, made.value.id, 'a'.repeat(21), said)
  ids['answerId'] = (await db.homeAnswer.findFirstOrThrow()).id
  return made.value.id
}

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

const doors = doorsOfApp()
const isRight = (word: string): word is Right => rights.some((right) => right === word)
const rightOf = ({ guard }: Door) => (guard && 'right' in guard ? guard.right : null)

test('a link to hand on is for phones, says whom it lets in, and is copied over plain http too', async () => {
  for (const [name, page] of [
    ['phone', await house.phone()],
    ['desk', await house.desk()],
  ] as const) {
    await signIn(page)
    await page.goto('/team')
    await page.getByRole('button', { name: 'Make an invitation link' }).click()
    const link = await page.getByLabel('Invitation link').inputValue()
    expect(link.startsWith(`${house.address}/invite/`)).toBe(true)
    await page.getByText('for whoever has it').waitFor()
    await page.getByRole('img', { name: 'Code to scan with a phone' }).waitFor()
    await page.getByRole('button', { name: 'Copy invitation link' }).click()
    await page.getByText('Copied.').waitFor()
    await shoot(page, `link-to-hand-on-${name}`)
    const field = page.getByLabel('For whom')
    await field.fill('')
    await field.press('Control+V')
    expect(await field.inputValue()).toBe(link)
    await page.goto(`/panels/${ids['panelId']}`)
    await page.getByRole('button', { name: 'Copy the address' }).click()
    await page.getByText('Copied.').waitFor()
    await shoot(page, `join-code-${name}`)
    await page.goto('/team')
    await page.getByText('What each role may do').click()
    await shoot(page, `rights-${name}`)
  }
})

test('every page and route of the house has its line in this table, with the right that its source asks for', () => {
  const found = doors.filter(({ kind, guard }) => kind !== 'act' && guard && 'right' in guard)
  expect(Object.fromEntries(found.map((door) => [door.address, rightOf(door)]))).toEqual(needs)
})

test('every page and route that asks for no right is one of these', () => {
  const found = doors.filter(({ kind, guard }) => kind !== 'act' && guard && 'open' in guard)
  expect([...new Set(found.map(({ address }) => address))].toSorted()).toEqual(openToAll.toSorted())
})

test('every act has its place in this table, and none is in the build that the sources do not show', () => {
  const found = doors.filter(({ kind }) => kind === 'act')
  const byRight: Record<string, string[]> = {}
  for (const door of found) (byRight[rightOf(door) ?? 'no right'] ??= []).push(door.name)
  for (const names of Object.values(byRight)) names.sort()
  expect(byRight).toEqual(acts)
  expect(actsOfTheBuild().map(({ name }) => name)).toEqual(found.map(({ name }) => name).toSorted())
})

test('a pourer’s rights are the lists, the progress and the bar, and nothing else; the bar’s are the bar', () => {
  expect(Object.keys(needs).filter((route) => may('pourer', needs[route] ?? 'team'))).toEqual(forPourers)
  const forThem = Object.entries(acts).flatMap(([right, names]) =>
    isRight(right) && may('pourer', right) ? names : [],
  )
  const own = [
    'logCoolingAction',
    'openPackAction',
    'packThrownAwayAction',
    'packUsedUpAction',
    'recordBarBatchAction',
    'strikeCoolingAction',
    'throwAwayAction',
    'openFillingAction',
    'openServingAction',
    'tickAction',
  ]
  expect(forThem).toEqual([...(acts['home'] ?? []), ...own])
  const forTheBar = Object.keys(needs).filter((route) => may('bar', needs[route] ?? 'team'))
  expect(forTheBar).toEqual(['/', '/account', ...forPourers.filter((route) => route.startsWith('/bar')), '/panels'])
})

/** Everybody who can stand before a door. */
const askers = [
  'owner',
  'developer',
  'pourer',
  'bar',
  'viewer',
  'removed member',
  'stranger',
  'owner of another café',
  'taster’s phone',
] as const
type Asker = (typeof askers)[number]
const visitors = new Map<Asker, Visitor>()
/** words of this café that nobody else may read: names of recipes, preparations, panels and people */
let secrets: string[] = []

const visitorOf = (asker: Asker) => visitors.get(asker) ?? visitor()
const roleOf = (asker: Asker): Role | null =>
  asker === 'owner of another café' ? 'owner' : isRole(asker) ? asker : null

/** Somebody whom no invitation made, so that the table of visitors is whole. */
async function putMember(cafeId: string, role: Role, who: Person): Promise<string> {
  const id = who.email
  const createdAt = new Date()
  const hashed = await hashInTurn(who.password)
  if (!hashed.ok) throw new Error(hashed.reason)
  const passwordHash = hashed.value
  await db.user.create({ data: { id, email: who.email, name: who.name, passwordHash, createdAt } })
  await db.membership.create({ data: { id, cafeId, userId: id, role, createdAt } })
  return id
}

test('they all stand before the doors', async () => {
  const cafe = await db.cafe.findFirstOrThrow()
  const other = await db.cafe.create({ data: { id: 'another', name: 'Another Kiosk', createdAt: new Date() } })
  ids['userId'] = await putMember(cafe.id, 'owner', removed)
  await putMember(other.id, 'owner', elsewhere)
  const invite = { kind: 'invite', role: 'viewer', tokenHash: '-', createdAt: new Date(), expiresAt: new Date(2e12) }
  ids['linkId'] = (await db.oneTimeLink.create({ data: { id: 'open-invite', cafeId: cafe.id, ...invite } })).id

  const signedIn = { ...people, owner: mara, 'removed member': removed, 'owner of another café': elsewhere }
  for (const [asker, person] of Object.entries(signedIn) as [Asker, Person][]) {
    visitors.set(asker, visitor())
    await visitorOf(asker).signIn(person.email, person.password)
  }
  const { joinToken } = await db.panel.findUniqueOrThrow({ where: { id: ids['panelId'] } })
  const phone = await sitDown(`http://127.0.0.1:${house.app.port}`, `/join/${joinToken}`, 'Pebble')
  visitors.set('taster’s phone', phone.visitor)

  // taken off the team by an act sent by hand, as the others below are sent
  expect((await visitorOf('removed member').ask('/team')).status).toBe(200)
  const remove = actsOfTheBuild().filter(({ name }) => name === 'removeMemberAction')
  for (const act of remove) expect((await send(visitorOf('owner'), act, [ids['userId']])).status).toBe(200)
  ids['userId'] = (await db.user.findUniqueOrThrow({ where: { email: people.viewer.email } })).id

  // a name that no page has as its example
  await db.recipe.update({ where: { id: ids['recipeId'] ?? '' }, data: { name: 'Quillberry coffee' } })
  const named = [
    await db.recipe.findMany(),
    await db.preparation.findMany(),
    await db.user.findMany({ where: { memberships: { some: { cafeId: cafe.id } } } }),
  ].flat()
  const titles = (await db.panel.findMany()).map(({ title }) => title)
  secrets = [...named.map(({ name }) => name), ...titles].filter((words) => words.length > 4)
  expect(secrets.length).toBeGreaterThan(6)
})

const rowsNow = () => dump(house.app.databaseUrl.replace('file:', ''))

/** The tables in which anything differs. */
function changedSince(before: Rows): string[] {
  const after = rowsNow()
  return [...after.keys()].filter((table) => JSON.stringify(after.get(table)) !== JSON.stringify(before.get(table)))
}

type Said = 'in' | 'sign in' | 'not for this role' | 'broken'
const refusals: Readonly<Record<string, Said>> = { '/sign-in': 'sign in', '/not-allowed': 'not for this role' }

/** What a script is sent says in its body where to go. */
const inBody = /NEXT_REDIRECT;\w+;([^;]+);/

function whatWasSaid(answer: Response, body: string): Said {
  const { headers } = answer
  const forScript = headers.get('content-type')?.startsWith('text/x-component') ? inBody.exec(body)?.[1] : undefined
  const to = headers.get('x-action-redirect')?.split(';')[0] ?? headers.get('location') ?? forScript
  const refused = to === undefined ? undefined : refusals[new URL(to, house.address).pathname]
  if (answer.status === 401) return 'sign in'
  if (answer.status === 403) return 'not for this role'
  return answer.status >= 500 ? 'broken' : (refused ?? 'in')
}

function whatIsRight(asker: Asker, door: Door): Said {
  const [right, role] = [rightOf(door), roleOf(asker)]
  if (right === null) return 'in'
  if (role === null) return 'sign in'
  return may(role, right as Right) ? 'in' : 'not for this role'
}

/** The script's questions carry a mark of their headers behind a question mark; who asks without is sent there first. */
async function askAs(who: Visitor, path: string, headers: Readonly<Record<string, string>>): Promise<Response> {
  const answer = await who.ask(path, { headers })
  const to = new URL(answer.headers.get('location') ?? 'none:', house.address)
  return to.searchParams.has('_rsc') && to.pathname === path ? who.ask(`${path}${to.search}`, { headers }) : answer
}

const plain: Readonly<Record<string, string>> = {}
const ways = [plain, { rsc: '1' }]
const isOfTheHouse = (asker: Asker) => isRole(asker)

describe.each(askers)('%s', (asker) => {
  test('is let in at each page and route where the table says, and nowhere else, and reads nothing beyond', async () => {
    const before = rowsNow()
    const wrong: string[] = []
    for (const door of doors.filter(({ kind, name }) => kind !== 'act' && name !== 'POST')) {
      const isPage = door.kind === 'page'
      // a page is asked for as a browser does, and as the script of another page does
      for (const headers of isPage ? ways : ways.slice(0, 1)) {
        const answer = await askAs(visitorOf(asker), filled(door.address), headers)
        const body = await answer.text()
        const [said, right] = [whatWasSaid(answer, body), whatIsRight(asker, door)]
        // what asks for no right has its own ways to refuse whoever has not its key
        const isWrong = rightOf(door) === null ? said === 'broken' : said !== right
        if (isWrong) wrong.push(`${door.address}: ${said}, should be ${right}`)
        const isOfAnother = asker === 'owner of another café' && door.address.includes('[')
        if (isOfAnother && headers === plain && answer.status === 200 && rightOf(door))
          wrong.push(`${door.address}: shown`)
        const mayRead = isOfTheHouse(asker) && right === 'in'
        if (!mayRead)
          wrong.push(...secrets.filter((word) => body.includes(word)).map((word) => `${door.address}: ${word}`))
      }
    }
    expect(wrong).toEqual([])
    expect(changedSince(before)).toEqual([])
  })

  test('sends what a phone or the scale sends, without the key to it or about what is not theirs, and nothing is done', async () => {
    const before = rowsNow()
    const wrong: string[] = []
    for (const door of doors.filter(({ kind, name }) => kind === 'route' && name === 'POST')) {
      const letters = await lettersTo(door, asker)
      if (letters.length === 0) wrong.push(`${door.address}: no letter to send to it stands here`)
      for (const letter of letters) {
        const answer = await visitorOf(asker).post(letter.path ?? filled(door.address), letter.body)
        const body = await answer.text()
        const right = whatIsRight(asker, door)
        // what asks for no right shows its page again, sends back to it, or refuses
        const isWrong = rightOf(door) === null ? answer.status >= 500 : whatWasSaid(answer, body) !== right
        if (isWrong) wrong.push(`${door.address}: answered ${answer.status}`)
        if (!isOfTheHouse(asker))
          wrong.push(...secrets.filter((word) => body.includes(word)).map((word) => `${door.address}: ${word}`))
      }
    }
    expect(wrong).toEqual([])
    expect(changedSince(before)).toEqual([])
  })

  test('is refused every act that the table does not give, before it does anything', async () => {
    const before = rowsNow()
    const wrong: string[] = []
    for (const act of actsOfTheBuild()) {
      const right = whatIsRight(asker, act.door)
      // who may is heard with ids that nothing has; who may not sends the letter that would do it
      const isHarmless = right === 'in' && isOfTheHouse(asker)
      // asks for nothing that could be made up, and ends the sessions that the stories below go on with
      if (isHarmless && act.name === 'endOtherSessionsAction') continue
      const answer = await post(visitorOf(asker), act, isHarmless ? 'made up' : 'true')
      const body = await answer.text()
      const said = whatWasSaid(answer, body)
      if (said !== right) wrong.push(`${act.name}: ${said}, should be ${right}`)
      if (!isHarmless)
        wrong.push(...secrets.filter((word) => body.includes(word)).map((word) => `${act.name}: ${word}`))
    }
    expect(wrong).toEqual([])
    expect(changedSince(before)).toEqual([])
  })
})

test('an act that a page of another address sends with the owner’s own cookies is refused, and nothing is done', async () => {
  const before = rowsNow()
  const through: string[] = []
  for (const act of actsOfTheBuild()) {
    const answer = await post(visitorOf('owner'), act, 'true', { origin: 'http://elsewhere.example' })
    await answer.text()
    if (answer.status < 400) through.push(act.name)
  }
  expect(through).toEqual([])
  expect(changedSince(before)).toEqual([])
})

test('an act that is called with something else in the place of its form or its number answers, and does nothing', async () => {
  const before = rowsNow()
  const broken: string[] = []
  for (const act of actsOfTheBuild().filter(({ door }) => door.takes.some(({ type }) => type === 'number')))
    for (const other of ['constructor', '1', 2 ** 40, -(2 ** 53), 1.5, null, {}]) {
      const given = act.door.takes.map(({ type }) =>
        type === 'number' ? other : type === 'FormData' ? null : 'no-such',
      )
      const answer = await send(visitorOf('owner'), act, given)
      await answer.text()
      if (answer.status >= 500) broken.push(`${act.name}(${JSON.stringify(other)})`)
    }
  for (const act of actsOfTheBuild().filter(({ door }) => door.takes.some(({ type }) => type === 'FormData')))
    for (const other of [{ a: { b: [] } }, 'words', null, 7, []]) {
      const given = act.door.takes.map(({ type }) =>
        type === 'string' ? 'no-such' : type === 'number' ? 99_999 : other,
      )
      const answer = await send(visitorOf('owner'), act, given)
      await answer.text()
      if (answer.status >= 500) broken.push(`${act.name}(${JSON.stringify(other)})`)
    }
  expect(broken).toEqual([])
  expect(changedSince(before)).toEqual([])
})

test('the same letters from the owner change things, so the refusals above are about the asker', async () => {
  const bites: string[] = []
  const sent = ['archiveRecipeAction', 'archiveVesselAction', 'changeRoleAction', 'noteAction', 'addSeatsAction']
  // a role changes only where it was another
  await db.membership.updateMany({ where: { userId: ids['userId'] ?? '' }, data: { role: 'pourer' } })
  for (const name of sent) {
    const [before, act] = [rowsNow(), actsOfTheBuild().find((one) => one.name === name)]
    if (!act) throw new Error(`${name} is not in the build`)
    await (await post(visitorOf('owner'), act, 'true')).text()
    if (changedSince(before).includes('AuditRow')) bites.push(name)
  }
  expect(bites).toEqual(sent)
})

/** What is sent to a route handler, as its own page sends it. */
interface Letter {
  readonly body: URLSearchParams | object
  /** where not to the door as it stands in the table of ids */
  readonly path?: string
}

/** Letters that would do something in the hands of whoever has the key, which this asker has not. */
async function lettersTo({ address }: Door, asker: Asker): Promise<readonly Letter[]> {
  // a seat that somebody else holds: whoever sits elsewhere may know its codes from looking over a shoulder
  const theirs = await db.serving.findFirstOrThrow({
    where: { panelId: ids['panelId'], seat: { number: 1 } },
    orderBy: { position: 'asc' },
  })
  const message = { sitting: 'x'.repeat(21), code: theirs.code, revision: 1, key: 'k'.repeat(21) }
  const ofSet = { sitting: 'x'.repeat(21), set: 1, revision: 1, key: 'k'.repeat(21) }
  const entering = new URLSearchParams({ name: 'Pebble', cautions: 'on', consent: 'on', declared: 'on' })
  const weighing = { key: 'w'.repeat(21), glasses: 1, weights: [{ position: 1, grams: 10 }] }
  const letters: Readonly<Record<string, readonly Letter[]>> = {
    '/home/[token]': [{ body: new URLSearchParams({ key: 'k'.repeat(21), liking: '9' }) }],
    '/join/[token]': [{ body: entering }, { body: { act: 'continue' } }],
    '/seat/[token]': [{ body: entering }, { body: { act: 'continue' } }],
    '/seat/[token]/kept': [{ body: new URLSearchParams({ words: 'yes' }) }],
    // the phone that holds a seat may pass itself on and take its own name out: what it sends is no such letter
    '/taste/kept': [{ body: asker === 'taster’s phone' ? { seat: 1 } : new URLSearchParams({ words: 'yes' }) }],
    '/taste/pass': [{ body: asker === 'taster’s phone' ? { seat: 1 } : {} }],
    '/taste/scores': [{ body: { ...message, attribute: 0, value: 9 } }],
    '/taste/sets': [
      { body: { ...ofSet, act: 'answer', attribute: 0, answer: [1] } },
      { body: { ...ofSet, act: 'lock' } },
      { body: { ...ofSet, act: 'skip', reason: 'rather-not' } },
    ],
    '/taste/cup': [
      { body: { ...message, act: 'code-seen' } },
      { body: { ...message, act: 'lock' } },
      { body: { ...message, act: 'skip', reason: 'rather-not' } },
      { body: { ...message, act: 'comment', comment: 'Sold to somebody' } },
    ],
    '/bar/[recipeId]/weighings': [
      // who may is heard about a recipe that is not there
      roleOf(asker) !== null && asker !== 'owner of another café' && may(roleOf(asker) ?? 'viewer', 'bar:make')
        ? { body: weighing, path: '/bar/no-such/weighings' }
        : { body: weighing },
    ],
    '/trials/[trialId]/weighings': [
      // who may is heard about a trial that is not there
      roleOf(asker) !== null && asker !== 'owner of another café' && may(roleOf(asker) ?? 'viewer', 'recipe:write')
        ? { body: weighing, path: '/trials/no-such/weighings' }
        : { body: weighing },
    ],
  }
  return letters[address] ?? []
}

interface Act {
  readonly id: string
  readonly name: string
  readonly path: string
  readonly door: Door
}

/** Every server action of the build, with a page it can be sent to. */
function actsOfTheBuild(): Act[] {
  const manifest = JSON.parse(readFileSync(`${built}/server/server-reference-manifest.json`, 'utf8')) as {
    node: Record<string, { exportedName: string; workers: Record<string, unknown> }>
  }
  const unseen = { kind: 'act', file: '', address: '', guard: null, takes: [], looksAt: [] } as const
  const found = Object.entries(manifest.node).map(([id, { exportedName: name, workers }]): Act => {
    const page = (Object.keys(workers)[0] ?? '').replace(/^app/, '').replace(/\/\([^/]*\)/g, '')
    const door = doors.find((one) => one.kind === 'act' && one.name === name) ?? { ...unseen, name }
    return { id, name, door, path: page.replace(/\/page$/, '') || '/' }
  })
  return found.toSorted((a, b) => (a.name < b.name ? -1 : 1))
}

const send = (who: Visitor, act: Act, words: readonly unknown[] = []) =>
  who.ask(filled(act.path), {
    method: 'POST',
    body: JSON.stringify(words),
    headers: { 'next-action': act.id, 'content-type': 'text/plain;charset=UTF-8' },
  })

/** What people type, for every form at once: each takes of it what it asks for. */
const typed: Readonly<Record<string, string>> = {
  role: 'viewer',
  name: 'Sold to somebody',
  text: 'Sold to somebody',
  note: 'Sold to somebody',
  reason: 'Sold to somebody',
  howMany: '3',
  seat: '1',
  change: 'paper',
  address: 'http://elsewhere.example',
}

/** The id that an act asks for by this name: a true one of this café, or none. */
function idFor(act: Act, name: string): string {
  const kind = /Vessel/.test(act.name) ? 'vesselId' : /Preparation/.test(act.name) ? 'preparationId' : 'ingredientId'
  const words: Readonly<Record<string, string>> = {
    id: ids[kind] ?? '',
    back: '/panels',
    unaffected: 'yes',
    consent: 'yes',
    unseen: 'yes',
    token: 'x'.repeat(43),
  }
  return ids[name] ?? words[name] ?? 'no-such'
}

/** An act as the script of a page sends it: its arguments as JSON, and its form beside them. */
function post(who: Visitor, act: Act, how: 'true' | 'made up', also: Readonly<Record<string, string>> = {}) {
  const body = new FormData()
  // a form that stands alone makes something new in the café of whoever sends it: that one is sent empty
  const isAbout = act.door.takes.some(({ type }) => type === 'string' || type === 'number')
  if (how === 'true' && isAbout) for (const [name, words] of Object.entries(typed)) body.append(`_1_${name}`, words)
  // more seats are wanted beside those that stood there
  if (how === 'true' && act.name === 'addSeatsAction') body.append('_1_opened', ids['seats'] ?? '')
  const given = act.door.takes.map(({ name, type }) => {
    if (type === 'FormData') return '$K1'
    if (type === 'string') return how === 'true' ? idFor(act, name) : `no-such-${name}`
    if (type === 'number') return how === 'true' ? 1 : 99_999
    return type === 'boolean' ? true : null
  })
  body.append('0', JSON.stringify(given))
  return who.ask(filled(act.path), { method: 'POST', body, headers: { 'next-action': act.id, ...also } })
}

/** What is asked for behind a question mark, page by page. */
const asks: readonly (readonly [route: string, name: string])[] = [
  ['/sign-in', 'after'],
  ['/store', 'name'],
  ['/find', 'words'],
  ['/diary', 'before'],
  ['/diary', 'steps'],
  ['/panels/new', 'recipe'],
  ['/recipes/[recipeId]/beside', 'trial'],
  ['/recipes/[recipeId]/beside', 'measures'],
  ['/recipes/[recipeId]/levels', 'trial'],
  ['/recipes/[recipeId]/why', 'page'],
  ['/panels/[panelId]/paper', 'seat'],
  ['/panels/[panelId]/filling', 'opening'],
  ['/panels/[panelId]/serving', 'opening'],
  ['/panels/[panelId]/phones', 'try'],
  ['/trials/[trialId]', 'measures'],
  ['/trials/[trialId]/card', 'size'],
  ['/trials/[trialId]/compare', 'with'],
  ['/trials/[trialId]/make', 'count'],
  ['/trials/[trialId]/make', 'amount'],
  ['/trials/[trialId]/make', 'spare'],
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
  const other = visitor()
  await other.signIn(people.viewer.email, people.viewer.password)
  expect((await other.ask('/')).status).toBe(200)
  const desk = await house.desk()
  await signIn(desk, people.viewer)
  await desk.goto('/account')
  await desk.getByLabel('Present password').fill(people.viewer.password)
  await desk.getByLabel('New password').fill('another long one')
  await desk.getByRole('button', { name: 'Change the password' }).click()
  await desk.waitForURL(/sign-in/)
  expect((await other.ask('/')).headers.get('location')).toBe('/sign-in')
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
