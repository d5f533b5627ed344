'use client'

import { useField } from '@conform-to/react'
import { useState } from 'react'
import { mostWords, questionChoices, questionEnds, sayCupTime } from '@/lib/forms/question-choices'
import { AreaField, SelectField, TextField } from './field'

interface TypedQuestion {
  readonly name?: string
  readonly kind?: string
}

/** Rows one sees at once; more unfold. */
const FIRST = 3

const [usualLow, usualHigh] = questionEnds['just-right-5']
const [usualNone, usualMost] = questionEnds['intensity-100']

/** What is asked of each cup beside overall liking, each with a kind of its own. */
export function QuestionsField({ places }: { readonly places: number }) {
  const [field] = useField<TypedQuestion[]>('aspects')
  const typed = field.initialValue
  const named = Array.isArray(typed) ? typed.filter((one) => typeof one === 'object' && one.name).length : 0
  const [asked, setAsked] = useState(named)
  return (
    <fieldset
      className="grid gap-3"
      aria-describedby={field.errors ? field.errorId : undefined}
      onInput={(event) => setAsked(countNamed(event.currentTarget))}
    >
      <legend className="font-semibold">Further questions</legend>
      <p className="text-s text-soft">
        Overall liking is always asked first and decides. Each further question is one more screen per cup: two are
        plenty. Ask “too little, just right, too much” of what you could change.
      </p>
      {Array.from({ length: Math.min(FIRST, places) }, (_, at) => (
        <QuestionRow key={at} at={at} />
      ))}
      <details open={named > FIRST || undefined} className="rounded border border-line">
        <summary className="min-h-11 px-3 py-2 font-semibold">More questions</summary>
        <div className="grid gap-3 border-t border-line p-3">
          {Array.from({ length: Math.max(0, places - FIRST) }, (_, at) => (
            <QuestionRow key={at} at={FIRST + at} />
          ))}
        </div>
      </details>
      <p aria-live="polite" className="text-s text-soft">
        {sayCupTime(asked)}
      </p>
      {field.errors && (
        <p id={field.errorId} className="text-s font-semibold text-stop">
          {field.errors.join(' ')}
        </p>
      )}
    </fieldset>
  )
}

function countNamed(group: HTMLFieldSetElement): number {
  const names = [...group.querySelectorAll<HTMLInputElement>('input[name$=".name"]')]
  return names.filter(({ value }) => value.trim() !== '').length
}

/** Which further fields stand there follows the kind, without a script. */
function QuestionRow({ at }: { readonly at: number }) {
  const name = `aspects[${at}]`
  const [field] = useField<string>(name)
  return (
    <div
      role="group"
      aria-label={`Question ${at + 1}`}
      className="group/question grid gap-3 rounded border border-line bg-raised p-3"
    >
      <div className="grid gap-3 sm:grid-cols-2">
        <TextField name={`${name}.name`} label={`Question ${at + 1} is about`} />
        <SelectField name={`${name}.kind`} label="asked as" choices={questionChoices} />
      </div>
      <div className="hidden gap-3 group-has-[option[value=intensity-100]:checked]/question:grid group-has-[option[value=just-right-5]:checked]/question:grid sm:grid-cols-2">
        <TextField name={`${name}.low`} label="Its low end says" />
        <TextField name={`${name}.high`} label="Its high end says" />
        <p className="hidden text-s text-soft group-has-[option[value=just-right-5]:checked]/question:block sm:col-span-2">
          As a taster would say it: “not sweet enough” and “too sweet”. Left empty: “{usualLow}” and “{usualHigh}”.
        </p>
        <p className="hidden text-s text-soft group-has-[option[value=intensity-100]:checked]/question:block sm:col-span-2">
          What stands at the two ends of the line. Left empty: “{usualNone}” and “{usualMost}”.
        </p>
      </div>
      <div className="hidden group-has-[option[value=words]:checked]/question:block">
        <AreaField
          name={`${name}.words`}
          label="Words"
          rows={3}
          help={`Two to ${mostWords}, one a line. Each taster sees them in an order of their own.`}
        />
      </div>
      {field.errors && <p className="text-s font-semibold text-stop">{field.errors.join(' ')}</p>}
    </div>
  )
}
