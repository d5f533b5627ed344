import 'server-only'
import type { PlanTyped } from '@/lib/forms/panel-form'
import { closePanel } from '../pour/close-panel'
import { decide } from '../result/decide'
import { demoSheet, type DemoTrial } from './demo/demo-sheet'
import { holdDemoSitting } from './demo/demo-sitting'
import { boilAgain, layOutStore, type DemoStore } from './demo/demo-store'
import { branchTrial } from '../trial/branch-trial'
import { adoptWithoutPanel, changeRecipeMoney, startRecipe } from '../recipe/keep-recipe'
import { noteOnTrial } from '../trial/note-on-trial'
import { openPanel } from '../pour/open-panel'
import { planPanel } from '../plan/plan-panel'
import { changeTrial, recordTrial } from '../trial/record-trial'
import type { Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { likingQuestion } from '@/lib/panel/question'
import type { Reader, World } from '../world'

/** The demo is laid out by our own acts: a refusal is our bug. */
function done<Value>(outcome: Result<Value>): Value {
  if (!outcome.ok) throw new RangeError(`the demo was refused: ${outcome.reason}`)
  return outcome.value
}

/**
 * Fills a new café with the invented "Ferry Steps" kiosk: recipes, trials, closed panels with decisions, one open.
 * Everything goes through the acts a person would use, on days in the past; only the tasters are made up in one go.
 */
export async function layOutDemo(world: World, owner: Reader): Promise<void> {
  const on = (daysAgo: number): World => ({
    ...world,
    now: () => new Date(world.now().getTime() - daysAgo * 86_400_000),
  })
  const store = await inTransaction(world, (tx) => layOutStore(on(60), tx, owner))
  const iced = await newRecipe(
    on(60),
    owner,
    'Iced date-cardamom coffee',
    'The kiosk’s summer drink. Invented for the demo.',
  )
  await changeRecipeMoney(
    on(60),
    owner,
    iced,
    {
      price: 3.5,
      tax: 12,
      targetCost: 25,
      waste: 3,
      packaging: undefined,
      fixed: 1200,
      room: 25,
    },
    null,
  )

  const first = done(await recordTrial(on(58), owner, iced, demoSheet(store, { name: '20 g syrup' })))
  done(
    await adoptWithoutPanel(on(57), owner, iced, {
      trialId: first,
      reason: 'It was on the menu when this book began.',
    }),
  )
  const sweet = await vary(on(50), owner, store, first, { name: '30 g syrup', syrup: 30 })
  const sweeter = await vary(on(50), owner, store, first, { name: '40 g syrup', syrup: 40 })
  done(await noteOnTrial(on(50), owner, sweeter, 'The date taste covers the coffee a little.'))
  await sweetnessPanel(on, owner, iced, { first, sweet, sweeter })

  const cheaper = await vary(on(24), owner, store, sweet, {
    name: '30 g syrup, whole milk',
    syrup: 30,
    milk: 'plainMilk',
    milkGrams: 90,
  })
  await milkPanel(on, owner, iced, { sweet, cheaper })

  const oat = await vary(on(4), owner, store, sweet, {
    name: '30 g syrup, oat drink',
    syrup: 30,
    milk: 'oat',
    milkGrams: 80,
  })
  await oatPanel(on, owner, iced, { sweet, oat })

  const steep = await newRecipe(
    on(20),
    owner,
    'Cold steep with cardamom',
    'Slow, for the morning queue. Invented for the demo.',
  )
  const weak = done(
    await recordTrial(
      on(20),
      owner,
      steep,
      demoSheet(store, {
        name: '1:14 overnight',
        method: 'cold-steep',
        ratio: 14,
        coffee: 14,
        syrup: 15,
        milkGrams: 40,
      }),
    ),
  )
  const strong = await vary(on(19), owner, store, weak, {
    name: '1:10 overnight',
    method: 'cold-steep',
    ratio: 10,
    coffee: 14,
    syrup: 15,
    milkGrams: 40,
  })
  await strengthPanel(on, owner, steep, { weak, strong })
  await inTransaction(world, (tx) => boilAgain(on(2), tx, owner))
}

async function newRecipe(world: World, owner: Reader, name: string, note: string): Promise<string> {
  return done(await startRecipe(world, owner, { name, note }, true))
}

async function vary(
  world: World,
  owner: Reader,
  store: DemoStore,
  parentId: string,
  trial: DemoTrial,
): Promise<string> {
  const child = done(await branchTrial(world, owner, parentId, trial.name))
  done(await changeTrial(world, owner, child, demoSheet(store, trial), null))
  return child
}

type Days = (daysAgo: number) => World

const plan = (typed: Pick<PlanTyped, 'title' | 'question' | 'cups' | 'seatCount'> & Partial<PlanTyped>): PlanTyped => ({
  publicTitle: 'Iced coffee, a few versions',
  duplicate: null,
  aspects: [],
  cupsPerTaster: null,
  aim: 'best',
  primaryKind: 'all-pairs',
  pairA: null,
  pairB: null,
  smallestDifference: 10,
  notWorseMargin: null,
  sampleMl: 40,
  seenThrough: null,
  nothingSeen: typed.seenThrough === undefined,
  ...typed,
})

async function held(world: World, owner: Reader, recipeId: string, typed: PlanTyped): Promise<string> {
  const panelId = done(await planPanel(world, owner, recipeId, typed))
  // of the syrup each trial was weighed with, a batch in date is poured
  done(await openPanel(world, owner, panelId, true))
  return panelId
}

async function sweetnessPanel(
  on: Days,
  owner: Reader,
  recipeId: string,
  trial: { first: string; sweet: string; sweeter: string },
) {
  const panelId = await held(
    on(45),
    owner,
    recipeId,
    plan({
      title: 'How sweet?',
      question: 'Which dose of date syrup do guests like best?',
      cups: [trial.first, trial.sweet, trial.sweeter],
      aspects: [likingQuestion('sweetness')],
      seatCount: 24,
    }),
  )
  await holdDemoSitting(on(45), {
    cafeId: owner.cafeId,
    panelId,
    seats: 23,
    seed: 4107,
    lastStopsAfter: 2,
    liking: new Map([
      [trial.first, 5.2],
      [trial.sweet, 6.9],
      [trial.sweeter, 6],
    ]),
    comments: [
      'Reminds me of a date cake.',
      'Too thin for me.',
      'Sweet, but I would finish it.',
      'Cardamom comes late, I like that.',
      'A bit heavy.',
    ],
  })
  done(await closePanel(on(45), owner, panelId))
  done(
    await decide(on(44), owner, panelId, {
      kind: 'adopt',
      trialId: trial.sweet,
      reason: 'Clearly liked better than the old dose; 40 g costs more and is not liked better.',
    }),
  )
}

async function milkPanel(on: Days, owner: Reader, recipeId: string, trial: { sweet: string; cheaper: string }) {
  const panelId = await held(
    on(22),
    owner,
    recipeId,
    plan({
      title: 'Is fresh milk as good?',
      question: 'May we pour fresh whole milk in place of evaporated milk?',
      cups: [trial.sweet, trial.cheaper],
      aim: 'as-good',
      primaryKind: 'against-house',
      smallestDifference: 5,
      notWorseMargin: 5,
      seenThrough: 'The fresh-milk version is a little darker.',
      seatCount: 20,
    }),
  )
  await holdDemoSitting(on(22), {
    cafeId: owner.cafeId,
    panelId,
    seats: 20,
    seed: 2218,
    liking: new Map([
      [trial.sweet, 6.8],
      [trial.cheaper, 6.2],
    ]),
    comments: ['Less round.', 'Fresher, lighter.', 'I could not tell.'],
  })
  done(await closePanel(on(22), owner, panelId))
  done(
    await decide(on(21), owner, panelId, {
      kind: 'keep',
      trialId: undefined,
      reason: 'It is not worse by half a point or more, but fresh milk keeps only days, and the glass looks thinner.',
    }),
  )
}

async function oatPanel(on: Days, owner: Reader, recipeId: string, trial: { sweet: string; oat: string }) {
  const panelId = await held(
    on(0),
    owner,
    recipeId,
    plan({
      title: 'Oat drink?',
      question: 'Is the oat version liked as well as the house recipe?',
      cups: [trial.sweet, trial.oat],
      aim: 'as-good',
      primaryKind: 'against-house',
      notWorseMargin: 10,
      seenThrough: 'The oat version is paler.',
      seatCount: 12,
    }),
  )
  await holdDemoSitting(on(0), {
    cafeId: owner.cafeId,
    panelId,
    seats: 5,
    seed: 931,
    lastStopsAfter: 1,
    liking: new Map([
      [trial.sweet, 6.8],
      [trial.oat, 6.3],
    ]),
    comments: [],
  })
}

async function strengthPanel(on: Days, owner: Reader, recipeId: string, trial: { weak: string; strong: string }) {
  const panelId = await held(
    on(10),
    owner,
    recipeId,
    plan({
      title: 'How strong?',
      publicTitle: 'Cold coffee, two versions',
      question: 'Is the stronger steep liked better?',
      cups: [trial.weak, trial.strong],
      aim: 'better',
      primaryKind: 'one-pair',
      pairA: trial.strong,
      pairB: trial.weak,
      seatCount: 10,
    }),
  )
  await holdDemoSitting(on(10), {
    cafeId: owner.cafeId,
    panelId,
    seats: 9,
    seed: 77,
    liking: new Map([
      [trial.weak, 5.9],
      [trial.strong, 6.3],
    ]),
    comments: ['Smooth.', 'A little watery.'],
  })
  done(await closePanel(on(10), owner, panelId))
}
