import { HiddenField, SelectField } from '@/app/ui/field'

/** Cups in order, as they stand on a sheet: the place that was written beside each code. */
export function PaperOrder({ name, codes }: { readonly name: string; readonly codes: readonly string[] }) {
  const places = codes.map((_, at) => ({ value: String(at + 1), words: String(at + 1) }))
  return (
    <fieldset className="grid gap-3">
      <legend className="mb-1 font-semibold">Place written beside each code, 1 is liked best</legend>
      {codes.map((code, at) => (
        <div key={code}>
          <HiddenField name={`${name}[${at}].code`} value={code} />
          <SelectField
            name={`${name}[${at}].place`}
            label={`Place of ${code.split('').join('\u00a0')}`}
            none="left blank"
            choices={places}
          />
        </div>
      ))}
      <p className="text-s text-soft">
        A sheet with a place twice, or a cup without one, has no order: leave all of them blank.
      </p>
    </fieldset>
  )
}

/** The places of an order that was typed before. @param answer  codes, the one liked best first; null: none */
export function orderAsTyped(codes: readonly string[], answer: readonly string[] | null) {
  return codes.map((code) => ({ code, place: answer ? String(answer.indexOf(code) + 1) : '' }))
}
