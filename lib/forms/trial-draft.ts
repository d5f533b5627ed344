import { readNumber, type NumberField } from '@/lib/base/typed-number'
import type { BuildLine, LineKind, MoneySettings, TrialBuild, Vessel } from '@/lib/drink/build'
import { computeBuild, type BuildFigures } from '@/lib/drink/build'
import { findMethod } from '@/lib/drink/method'
import { gramsOf } from '@/lib/drink/unit'
import { AMOUNT, DENSITY, PERCENT, temperatureField, THOUSANDTHS } from './number-fields'

/** What a line may be made of, as the page got it. */
export type DraftPart = Pick<
  BuildLine,
  'name' | 'kind' | 'form' | 'density' | 'costPerGram' | 'composition' | 'allergens' | 'labelRead' | 'preparation'
> & { readonly ref: string }

/** Everything about the drink that does not stand in the form. */
export interface DraftGround {
  readonly parts: readonly DraftPart[]
  readonly vessels: readonly (Vessel & { readonly id: string; readonly packMinor: number })[]
  readonly money: MoneySettings
  /** minor units of packaging beside the vessel's own */
  readonly packMinor: number
  readonly currencyDigits: number
  readonly room: TrialBuild['room']
  readonly allergenList: TrialBuild['allergenList']
}

/** Read as the form reads it when it is saved: what is asked there is not known here. */
const number = (form: FormData, name: string, field: NumberField): number | null => {
  const read = readNumber(String(form.get(name) ?? ''), field)
  return read.ok ? read.value : null
}

const degrees = (form: FormData, name: string) => number(form, name, temperatureField(-40, 100))

/** The sheet as it stands while somebody types: what cannot be read yet is left out, nothing throws. */
export function draftBuild(form: FormData, ground: DraftGround): TrialBuild {
  const method = findMethod(String(form.get('method') ?? ''))
  const vessel = ground.vessels.find((one) => one.id === form.get('vesselId')) ?? null
  const kind = form.get('ratioKind')
  return {
    name: String(form.get('name') ?? ''),
    brew: method?.brewing
      ? {
          method: method.words,
          brewing: method.brewing,
          ratioKind: kind === 'water-in' || kind === 'beverage-out' ? kind : null,
          ratio: number(form, 'ratio', THOUSANDTHS),
          retention: number(form, 'retention', THOUSANDTHS),
          extractionPercent: number(form, 'extraction', PERCENT),
          strengthPercent: number(form, 'strength', PERCENT),
        }
      : null,
    coffeeTemperature: degrees(form, 'coffeeTemperature'),
    iceTemperature: degrees(form, 'iceTemperature'),
    vessel,
    lines: draftLines(form, ground.parts),
    money: {
      ...ground.money,
      packagingCost: (ground.packMinor + (vessel?.packMinor ?? 0)) / 10 ** ground.currencyDigits,
    },
    room: ground.room,
    allergenList: ground.allergenList,
  }
}

export function draftFigures(form: FormData, ground: DraftGround): BuildFigures {
  return computeBuild(draftBuild(form, ground))
}

const roles: readonly string[] = ['coffee', 'sweetener', 'milk', 'water', 'ice', 'other'] satisfies LineKind[]
const isRole = (word: string): word is LineKind => roles.includes(word)

function draftLines(form: FormData, parts: readonly DraftPart[]): BuildLine[] {
  const rows = new Set([...form.keys()].flatMap((name) => /^lines\[(\d+)\]/.exec(name)?.[1] ?? []))
  const placeOf = (row: string) => Number(form.get(`lines[${row}].place`) ?? row)
  return [...rows]
    .toSorted((a, b) => placeOf(a) - placeOf(b))
    .flatMap((row) => {
      const field = (name: string) => `lines[${row}].${name}`
      const amount = number(form, field('amount'), AMOUNT)
      const role = String(form.get(field('role')) ?? 'other')
      const part = parts.find((one) => one.ref === form.get(field('part'))) ?? newPart(form, field, role)
      if (!part || amount === null) return []
      const density = number(form, field('density'), DENSITY) ?? part.density
      const grams = gramsOf(amount, String(form.get(field('unit')) ?? 'g'), density)
      if (!grams.ok) return []
      const { ref: _ref, ...known } = part
      return [
        {
          ...known,
          key: row,
          role,
          density: part.density,
          targetGrams: grams.value,
          weighedGrams: number(form, field('weighed'), THOUSANDTHS),
          toleranceGrams: number(form, field('tolerance'), THOUSANDTHS),
          temperature: degrees(form, field('temperature')),
          typed: null,
        },
      ]
    })
}

/** A part that is only a name so far: nothing is known of it, and the figures say so. */
function newPart(form: FormData, field: (name: string) => string, role: string): DraftPart | null {
  const name = String(form.get(field('newName')) ?? '').trim()
  if (name === '') return null
  return {
    ref: 'new',
    name,
    kind: isRole(role) ? role : 'other',
    form: role === 'ice' ? 'ice' : role === 'coffee' ? 'grounds' : 'liquid',
    density: null,
    costPerGram: null,
    composition: null,
    allergens: {},
    labelRead: false,
    preparation: null,
  }
}
