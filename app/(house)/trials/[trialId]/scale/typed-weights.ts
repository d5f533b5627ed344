'use client'

import { useState } from 'react'
import { addedAt, type Way } from '@/lib/forms/scale-steps'
import type { BrewDone } from '@/lib/forms/ladder-form'
import type { ScaleStep } from '@/lib/drink/scale'
import type { NumberField } from '@/lib/base/typed-number'
import type { ReadOff } from './kept-weights'
import { numberRead, shown } from './read-weight'

/** What somebody brewed with, as typed. */
export type TypedBrew = Readonly<Record<'dose' | 'water' | 'temperature' | 'grind' | 'seconds', string>>

export const noBrew: TypedBrew = { dose: '', water: '', temperature: '', grind: '', seconds: '' }

/** What each of its numbers can be: g, °C, s. */
export const brewNumbers = {
  dose: shown,
  water: shown,
  temperature: { least: -20, most: 130 },
  seconds: { least: 0, most: 1_000_000 },
} as const satisfies Readonly<Record<string, NumberField>>

/** What was typed beside the scale so far, by place. */
export function useTypedWeights() {
  const [readings, setReadings] = useState<Readonly<Record<number, string>>>({})
  const [brews, setBrews] = useState<Readonly<Record<number, TypedBrew>>>({})
  return {
    readings,
    brews,
    weigh: (place: number, typed: string) => setReadings((before) => ({ ...before, [place]: typed })),
    brew: (place: number, more: Partial<TypedBrew>) =>
      setBrews((before) => ({ ...before, [place]: { ...(before[place] ?? noBrew), ...more } })),
    clear: () => {
      setReadings({})
      setBrews({})
    },
  }
}

/** What the scale showed at each place, in grams. */
export function readingsOf(typed: Readonly<Record<number, string>>, places: number): readonly (number | null)[] {
  return Array.from({ length: places }, (_, place) => numberRead(typed[place] ?? '', shown))
}

/** All that was read off, as it is kept. */
export function readOff(
  steps: readonly ScaleStep[],
  way: Way,
  glasses: number,
  typed: { readonly readings: Readonly<Record<number, string>>; readonly brews: Readonly<Record<number, TypedBrew>> },
): ReadOff {
  const readings = readingsOf(typed.readings, steps.length)
  return {
    glasses,
    weights: steps.flatMap((_, place) => {
      const grams = addedAt(steps, place, way, readings)
      return grams === null || grams < 0 ? [] : [{ position: place + 1, grams }]
    }),
    brew: Object.entries(typed.brews).flatMap(([place, one]) => {
      const done = brewDone(Number(place) + 1, one)
      return done ? [done] : []
    }),
  }
}

function brewDone(position: number, typed: TypedBrew): BrewDone | null {
  const of = (name: keyof typeof brewNumbers) => numberRead(typed[name], brewNumbers[name])
  const grind = typed.grind.trim().slice(0, 40)
  const done = {
    position,
    dose: of('dose'),
    water: of('water'),
    temperature: of('temperature'),
    grind: grind === '' ? null : grind,
    seconds: of('seconds'),
  }
  const { position: _, ...said } = done
  return Object.values(said).some((value) => value !== null) ? done : null
}
