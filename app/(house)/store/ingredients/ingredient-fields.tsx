'use client'

import { CheckField, SelectField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import { Notice } from '@/app/ui/notice'
import { DoseFields } from '../dose-fields'
import { formChoices, kindChoices } from '../say-store'

interface Allergen {
  readonly id: string
  readonly name: string
  readonly covers: string
}

// "not stated" first: what nobody has chosen must never read as "contains", or as anything else.
const marks = [
  { value: 'not-stated', words: 'not stated' },
  { value: 'contains', words: 'contains' },
  { value: 'may-contain', words: 'may contain' },
] as const

const decimal = { inputMode: 'decimal' } as const

/** What a label says: the label in the hand wins over any table. */
export function IngredientFields({ allergens, source }: { allergens: readonly Allergen[]; source: string }) {
  return (
    <>
      <TextField name="name" label="Name" required help="As its label calls it: “evaporated milk”, not “milk”." />
      <div className="grid gap-4 sm:grid-cols-2">
        <SelectField name="kind" label="What it is" none="choose" choices={kindChoices} />
        <SelectField name="form" label="How it enters the glass" none="choose" choices={formChoices} />
      </div>
      <fieldset className="grid gap-3 rounded border border-line bg-raised p-4">
        <legend className="px-1 text-l font-semibold">Allergens on the label</legend>
        <div className="grid gap-x-6 gap-y-1 md:grid-cols-2">
          {allergens.map((one) => (
            <div key={one.id} className="border-b border-line py-2">
              <SelectField name={`allergens.${one.id}`} label={one.name} help={one.covers} choices={marks} />
            </div>
          ))}
        </div>
        <p className="text-s text-soft">{source}.</p>
        <CheckField
          name="labelRead"
          label="I have read the whole label"
          help="Then “not stated” above means that the label does not name it, and your name and the day are kept beside. Leave it open while the pack is not in your hand: then nothing made with it may be called free from anything."
        />
        <Notice look="caution">
          Even a read label is not “free from”: spoons, jugs and hands are shared. Follow your local food-safety rules.
        </Notice>
      </fieldset>
      <Fold words="Figures per 100 g: sugars, fat, energy, caffeine" open>
        <div className="grid gap-4 sm:grid-cols-2">
          <TextField name="water" label="Water" unit="g" {...decimal} />
          <TextField name="sugars" label="Sugars, all" unit="g" {...decimal} />
          <TextField
            name="freeSugars"
            label="Free (added) sugars"
            unit="g"
            {...decimal}
            help="All of a syrup’s or honey’s; none of milk’s own."
          />
          <TextField
            name="sweetness"
            label="As sweet as"
            unit="g sucrose"
            {...decimal}
            help="100 g of it, tasted. Equal to its sugars for sucrose."
          />
          <TextField name="fat" label="Fat" unit="g" {...decimal} />
          <TextField name="protein" label="Protein" unit="g" {...decimal} />
          <TextField name="energy" label="Energy" unit="kcal" {...decimal} />
          <TextField
            name="solids"
            label="Coffee solids"
            unit="g"
            {...decimal}
            help="Of a ready brew or instant coffee; 0 if there is no coffee in it."
          />
          <TextField name="caffeineLow" label="Caffeine, at least" unit="mg" {...decimal} />
          <TextField name="caffeineHigh" label="Caffeine, at most" unit="mg" {...decimal} />
        </div>
      </Fold>
      <Fold words="Density, °Bx, alcohol, pump, spoon and keeping">
        <div className="grid gap-4 sm:grid-cols-2">
          <TextField
            name="density"
            label="Density"
            unit="g/ml"
            {...decimal}
            help="Weigh 100 ml of it and divide by 100. A liquid lies between 0.90 and 1.50."
          />
          <CheckField
            name="densityIsAssumed"
            label="Assumed, not weighed"
            help="Take the tick away once 100 ml of yours were weighed: every sheet doubts it until then."
          />
          <TextField name="brix" label="Sugar of a bought syrup" unit="°Bx" {...decimal} help="g of sugar in 100 g." />
          <TextField
            name="alcohol"
            label="Alcohol"
            unit="% by volume"
            {...decimal}
            help="As its label says: extracts, bitters and spirits bring some. 0 where it says none; empty: not stated."
          />
          <DoseFields />
          <TextField
            name="openHours"
            label="Once opened it keeps for"
            unit="h"
            inputMode="decimal"
            help="As its label says, or less: 72 hours are three days. Local food-safety rules come first."
          />
          <TextField name="keepsCold" label="Keeping" help="“Opened: 4 days at 5 °C.”" />
        </div>
      </Fold>
      <div className="grid gap-4 sm:grid-cols-2">
        <TextField name="source" label="Where the figures come from" help="“label”, or the table and its number." />
        <TextField name="sourceDay" label="Read on" type="date" />
      </div>
      <TextField name="supplier" label="Supplier" help="Another one is another drink, until it has been tasted." />
      <TextField name="note" label="Note" />
    </>
  )
}
