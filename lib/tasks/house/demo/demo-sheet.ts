import 'server-only'
import type { TrialSent } from '@/lib/forms/trial-form'
import type { DemoStore } from './demo-store'

/** What sets one demo trial apart; the rest of the sheet is the house's build. */
export interface DemoTrial {
  readonly name: string
  readonly method?: string
  readonly coffee?: number
  readonly ratio?: number
  readonly syrup?: number
  readonly milk?: keyof Pick<DemoStore, 'milk' | 'plainMilk' | 'oat'>
  readonly milkGrams?: number
}

export function demoSheet(store: DemoStore, trial: DemoTrial): TrialSent {
  const line = (role: TrialSent['lines'][number]['role'], part: string, grams: number, temperature?: number) => ({
    role,
    part,
    newName: undefined,
    amount: { value: grams, typed: String(grams) },
    unit: 'g',
    density: undefined,
    weighed: undefined,
    tolerance: undefined,
    temperature,
    grind: role !== 'coffee' ? undefined : trial.method === 'cold-steep' ? 'coarse, mark 9' : 'medium, mark 6',
    note: undefined,
  })
  const { ratio = 10, coffee = 15 } = trial
  const steeped = trial.method === 'cold-steep'
  return {
    name: trial.name,
    method: trial.method ?? 'plunger-pot',
    ratioKind: 'water-in',
    ratio: { value: ratio, typed: String(ratio) },
    retention: { value: 2.1, typed: '2.1' },
    extraction: undefined,
    strength: undefined,
    vesselId: store.vesselId,
    waterTemperature: steeped ? 20 : 93,
    brewMinutes: steeped ? 960 : 4,
    coffeeTemperature: 22,
    iceTemperature: -10,
    iceIsWet: undefined,
    costLevelId: undefined,
    lines: [
      line('sweetener', store.dateSyrup, trial.syrup ?? 20, 5),
      line('coffee', store.coffee, coffee),
      line('milk', store[trial.milk ?? 'milk'], trial.milkGrams ?? 64, 5),
      line('ice', store.ice, 180),
    ],
    steps: [
      steeped
        ? { text: 'Steep in the cold overnight, strain', seconds: undefined }
        : { text: 'Brew, press, chill to room temperature', seconds: 240 },
      { text: 'Syrup into the glass, coffee on it, stir ten turns', seconds: undefined },
      { text: 'Ice, then milk down the side', seconds: undefined },
    ],
  }
}
