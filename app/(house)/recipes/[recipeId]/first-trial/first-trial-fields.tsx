'use client'

import { useField } from '@conform-to/react'
import { useState } from 'react'
import { methods } from '@/lib/forms/method-choices'
import { SelectField, TextField, type Choice } from '@/app/ui/field'
import type { PartChoice } from '@/app/ui/part-choice'
import { DensityField, ownDensity } from '@/app/ui/part-fields'
import { formChoices } from '../../../store/say-store'

interface Props {
  readonly coffees: readonly PartChoice[]
  readonly sweeteners: readonly Choice[]
  readonly milks: readonly PartChoice[]
}

export function FirstTrialFields({ coffees, sweeteners, milks }: Props) {
  return (
    <>
      <TextField name="name" label="Name" required help="What sets it apart: “1:9, 30 g date syrup”." />
      <SelectField name="method" label="Method" choices={methods} />
      <CoffeeFields coffees={coffees} />
      <div className="grid grid-cols-2 gap-4">
        <TextField name="coffee" label="Dry coffee" unit="g" inputMode="decimal" />
        <TextField name="water" label="Water in" unit="g" inputMode="decimal" help="For espresso: beverage out." />
      </div>
      <div className="grid grid-cols-[1fr_8rem] gap-4">
        <SelectField name="sweetener" label="Sweetener" choices={sweeteners} none="none" />
        <TextField name="sweetenerAmount" label="Dose" unit="g" inputMode="decimal" />
      </div>
      <MilkFields milks={milks} />
      <TextField name="ice" label="Ice" unit="g" inputMode="decimal" help="May stay empty." />
    </>
  )
}

/** Which coffee it is stands in the trial, so it is chosen and never taken for granted. */
function CoffeeFields({ coffees }: Pick<Props, 'coffees'>) {
  const [field] = useField<string>('coffeePart')
  const [part, change] = useState(field.initialValue ?? '')
  return (
    <>
      <SelectField
        name="coffeePart"
        label="Coffee"
        none="choose"
        choices={[...coffees, { value: 'new', words: 'something new …' }]}
        held={{ value: part, change }}
      />
      {part === 'new' && (
        <div className="grid gap-4 sm:grid-cols-2">
          <TextField name="coffeeName" label="Its name" help="Its label and price can be entered in the store later." />
          <SelectField
            name="coffeeForm"
            label="How it enters the glass"
            none="choose"
            choices={formChoices.filter(({ value }) => value !== 'ice')}
          />
        </div>
      )}
    </>
  )
}

/** Milk is poured by the ml here: where nobody knows what a ml weighs, it is asked. */
function MilkFields({ milks }: Pick<Props, 'milks'>) {
  const [field] = useField<string>('milk')
  const [typed] = useField<string>('milkDensity')
  const [milk, setMilk] = useState(field.initialValue ?? '')
  const [density, change] = useState(typed.initialValue ?? '')
  return (
    <>
      <div className="grid grid-cols-[1fr_8rem] gap-4">
        <SelectField
          name="milk"
          label="Milk or plant drink"
          choices={milks}
          none="none"
          held={{
            value: milk,
            change: (next) => {
              setMilk(next)
              change('')
            },
          }}
        />
        <TextField name="milkAmount" label="Amount" unit="ml" inputMode="decimal" />
      </div>
      {milk !== '' && ownDensity(milks, milk) === '' && (
        <DensityField name="milkDensity" part={milk} parts={milks} held={{ value: density, change }} />
      )}
      <input type="hidden" name="milkDensityFor" value={milk} />
    </>
  )
}
