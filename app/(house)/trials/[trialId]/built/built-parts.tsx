import { fixed } from '@/lib/base/number-format'
import type { Built, BuiltSheet } from '@/lib/tasks/trial/read-built'
import { ActButton } from '@/app/ui/act-button'
import { Moment } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { takeWeightsAction } from './actions'
import { sayBrewed, sayOffBy, sayWithin } from './say-built'

const grams = (value: number | null) => (value === null ? '–' : `${fixed(value, 1)} g`)

/** How each line came out over all of them. */
export function Repeats({ sheet }: { sheet: BuiltSheet }) {
  return (
    <Section title="How well it repeats" aside="Grams of one glass, over people and days">
      <ScrollTable
        label="Mean and spread of each line"
        heads={['Line', 'Asked', 'Mean', 'Standard deviation', 'Mean off by', 'Weighed']}
      >
        {sheet.lines.map((line, at) => [
          `${at}`,
          line.name,
          grams(line.wanted),
          grams(line.mean),
          line.deviation === null ? '–' : `${fixed(line.deviation, 2)} g`,
          line.mean === null ? '–' : sayOffBy(line),
          line.times === 1 ? 'once' : `${line.times} times`,
        ])}
      </ScrollTable>
      <p className="mt-2 max-w-prose text-s text-soft">
        Counted are weights of what the sheet asks for today. Several glasses built together count once, divided by how
        many they were. Mean and sample standard deviation, n − 1; one alone has none.
      </p>
    </Section>
  )
}

/** Each building, the newest first. */
export function BuiltList({ sheet, zone, takes }: { sheet: BuiltSheet; zone: string; takes: boolean }) {
  return (
    <Section
      title="Each building"
      aside={sheet.isCut ? `The newest ${sheet.built.length}` : `${sheet.built.length} in all`}
    >
      <ul className="grid gap-6">
        {sheet.built.map((one) => (
          <li key={one.id} className="border-t border-line pt-3">
            <BuiltOnce one={one} zone={zone} />
            {takes && (
              <div className="mt-2">
                <ActButton
                  action={takeWeightsAction.bind(null, sheet.trial.id, one.id)}
                  words="Make these the trial’s weights"
                  look="plain"
                />
              </div>
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}

function BuiltOnce({ one, zone }: { one: Built; zone: string }) {
  const rows = [
    ...one.parts.map((part) => ({ part, dry: false })),
    ...one.brew.flatMap((part) => (part ? [{ part, dry: true }] : [])),
  ]
  return (
    <>
      <p>
        <strong>{one.by}</strong>, <Moment at={one.at} zone={zone} />, {one.glasses}{' '}
        {one.glasses === 1 ? 'glass' : 'glasses together'}: <strong>{sayWithin(one.within)}</strong>
      </p>
      {one.brewed.map((done) => (
        <p key={done.position} className="text-s text-soft">
          Brewed with {sayBrewed(done)}.
        </p>
      ))}
      {rows.length > 0 && (
        <ScrollTable label={`What ${one.by} weighed`} heads={['Line', 'Asked', 'Weighed', 'Off by', 'Tolerance']}>
          {rows.map(({ part, dry }, at) => [
            `${at}`,
            dry ? `${part.name}, dry` : part.name,
            grams(part.wanted),
            grams(part.grams),
            sayOffBy(part),
            sayWithin(part.within),
          ])}
        </ScrollTable>
      )}
    </>
  )
}
