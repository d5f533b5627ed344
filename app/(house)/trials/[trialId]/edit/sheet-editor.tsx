'use client'

import { useCallback, useDeferredValue, useEffect, useRef, useState } from 'react'
import { draftSheet, type DraftGround, type DraftSheet } from '@/lib/forms/trial-draft'
import { methods } from '@/lib/forms/method-choices'
import { isPart } from '@/lib/forms/unit-choices'
import { ActForm, type FormAction } from '@/app/ui/act-form'
import { BuildFiguresView } from '@/app/ui/build-figures'
import { CheckField, SelectField, TextField } from '@/app/ui/field'
import { Fold, Section } from '@/app/ui/page-frame'
import { localRules, Notice } from '@/app/ui/notice'
import { sayLevel } from '@/app/ui/say-level'
import { StepRows } from '@/app/ui/step-rows'
import type { Asked } from '../../passing-fields'
import { LineRows, type FocusNext } from './line-rows'
import type { SheetDefaults } from './sheet-defaults'

interface Props {
  readonly keep: string
  readonly opened: string
  readonly action: FormAction
  readonly defaults: SheetDefaults
  readonly ground: DraftGround
  readonly levels: readonly { readonly id: string; readonly name: string }[]
  readonly currency: string
  readonly allergens: Asked['allergens']
}

/** The sheet of a trial: typed on the left, its figures following on the right (below, on a phone). */
export function SheetEditor({ keep, opened, action, defaults, ground, levels, currency, allergens }: Props) {
  const sheet = useRef<HTMLDivElement>(null)
  const focusRef: FocusNext = useRef(null)
  const [typed, setTyped] = useState<FormData | null>(null)
  const settled = useDeferredValue(typed)

  const follow = useCallback(() => {
    const form = sheet.current?.querySelector('form')
    if (form) setTyped(new FormData(form))
  }, [])
  useEffect(follow, [follow])

  const vessel = ground.vessels.find((one) => one.id === settled?.get('vesselId'))?.name ?? null
  const made = settled && draftSheet(settled, ground)
  const level = made && sayLevel(made.build)
  return (
    <div className="grid gap-8 lg:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
      <div ref={sheet} onInput={follow} onChange={follow}>
        <ActForm
          id="sheet"
          action={action}
          keep={keep}
          askBeforeLeaving="The sheet is not saved. Leave it? What you typed stays on this device."
          opened={opened}
          defaults={defaults}
          submit="Save the sheet"
        >
          <TextField name="name" label="Name" required />
          <LineRows
            parts={ground.parts}
            asked={{ allergens, currency }}
            onRows={follow}
            focusRef={focusRef}
            unread={made?.unread ?? []}
            weighs={made ? gramsTyped(made) : new Map()}
          />
          {inParts(settled, defaults) && (
            <div className="max-w-64">
              <TextField
                name="partGrams"
                label="One part is"
                unit="g"
                inputMode="decimal"
                help="For every line that is given in parts: 2 parts are twice this."
              />
            </div>
          )}
          <Fold words="How the coffee is made" open>
            <div className="grid gap-4">
              <SelectField name="method" label="Method" choices={methods} />
              <div className="grid grid-cols-[1fr_8rem] gap-4">
                <SelectField
                  name="ratioKind"
                  label="Brew ratio"
                  none="not given"
                  choices={[
                    { value: 'water-in', words: 'coffee to water in' },
                    { value: 'beverage-out', words: 'dose to beverage out' },
                  ]}
                />
                <TextField name="ratio" label="1 to" inputMode="decimal" />
              </div>
              <div className="grid grid-cols-2 gap-4">
                <TextField name="waterTemperature" label="Brewing water" unit="°C" inputMode="decimal" />
                <TextField name="brewMinutes" label="Brewing time" unit="min" inputMode="decimal" />
              </div>
              <TextField
                name="coffeeTemperature"
                label="Temperature of the coffee at pour"
                unit="°C"
                inputMode="decimal"
              />
              <Fold words="Measured: retention, extraction, strength">
                <div className="grid gap-4">
                  <TextField
                    name="retention"
                    label="Liquid kept by the grounds"
                    unit="g/g"
                    inputMode="decimal"
                    help="Water in less beverage out, over the dose. 2 g/g is assumed while this is empty."
                  />
                  <TextField
                    name="extraction"
                    label="Extraction yield"
                    unit="%"
                    inputMode="decimal"
                    help="Share of the dose that dissolved."
                  />
                  <TextField name="strength" label="Dissolved solids of the beverage" unit="%" inputMode="decimal" />
                </div>
              </Fold>
            </div>
          </Fold>
          <Fold words="Vessel, ice and cost level">
            <div className="grid gap-4">
              <SelectField
                name="vesselId"
                label="Vessel it is sold in"
                none="not given"
                choices={ground.vessels.map(({ id, name, brimMl }) => ({
                  value: id,
                  words: `${name} (${brimMl} ml to the brim)`,
                }))}
              />
              <TextField
                name="iceTemperature"
                label="Temperature of the ice"
                unit="°C"
                inputMode="decimal"
                help="−18 from a freezer, 0 from a wet bin."
              />
              <CheckField name="iceIsWet" label="The ice is wet" />
              {levels.length > 0 && (
                <SelectField
                  name="costLevelId"
                  label="Cost level really used"
                  help="What the level uses is then what was in the glass: figures, card and allergens follow it."
                  none="not given"
                  choices={levels.map(({ id, name }) => ({ value: id, words: name }))}
                />
              )}
            </div>
          </Fold>
          <Fold words="Steps, in order">
            <StepRows time={{ field: 'seconds', unit: 's' }} />
          </Fold>
          <Notice look="caution">
            Hot brew and hot syrup burn; milk and plant drinks stay at 5 °C or colder until they are poured.{' '}
            {localRules}
          </Notice>
        </ActForm>
      </div>
      <Section title="What it makes" aside="Follows as you type">
        {level && <p className="mb-3 font-semibold">{level}</p>}
        {made && <NotCounted sheet={made} />}
        {made && (
          <BuildFiguresView
            figures={made.figures}
            currency={currency}
            vessel={vessel}
            iced={made.named.some(({ form }) => form === 'ice')}
            without={made.unread.map(({ number }) => number)}
          />
        )}
      </Section>
    </div>
  )
}

/** What lines come to that were typed in anything but grams, by row: g. */
const gramsTyped = ({ named }: DraftSheet): ReadonlyMap<string, number> =>
  new Map(
    named.flatMap(({ key, typed, targetGrams }) =>
      typed && typed.unit !== 'g' && targetGrams > 0 ? [[key, targetGrams] as const] : [],
    ),
  )

/** Is any line given in parts? As it is typed, or before that as it is kept. */
const inParts = (typed: FormData | null, { lines }: SheetDefaults) =>
  typed === null
    ? lines.some(({ unit }) => isPart(unit))
    : [...typed].some(([name, value]) => /^lines\[\d+\]\.unit$/.test(name) && isPart(String(value)))

/** What the figures below leave out, before the first of them. */
function NotCounted({ sheet: { unread, unreadFields } }: { sheet: DraftSheet }) {
  return (
    <div className="mb-4 grid gap-3 empty:hidden">
      {unread.length > 0 && (
        <Notice look="stop" word="Not counted">
          {unread.map(({ number, message }) => `Line ${number}. ${message}`).join(' ')}
        </Notice>
      )}
      {unreadFields.length > 0 && (
        <Notice look="stop" word="Not read">
          {unreadFields.join(', ')}. The figures go on as if nothing stood there.
        </Notice>
      )}
    </div>
  )
}
