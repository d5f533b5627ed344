import { ButtonLink } from '@/app/ui/button'
import { Notice } from '@/app/ui/notice'
import { Moment } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import { listed } from '../panel-words'

const lists = [
  { name: 'filling', title: 'Filling list', words: 'which trial goes into which jug' },
  { name: 'serving', title: 'Serving list', words: 'which jug goes under which code, tray by tray' },
] as const

/** The two lists, who opened them, and who therefore must not taste. */
export function ListsPart({ panel, zone, runs }: { panel: PanelReading; zone: string; runs: boolean }) {
  return (
    <Section title="Pouring" aside="best by two people, one list each">
      <div className="grid gap-4 md:grid-cols-2">
        {lists.map(({ name, title, words }) => (
          <div key={name} className="grid content-start gap-2 rounded border border-line bg-raised px-4 py-3">
            <h3>{title}</h3>
            <p className="text-s text-soft">{words}</p>
            <Readers panel={panel} list={name} zone={zone} />
            {runs && (
              <p>
                <ButtonLink look="plain" href={`/panels/${panel.id}/${name}`}>
                  Open the {title.toLowerCase()}
                </ButtonLink>
              </p>
            )}
          </div>
        ))}
      </div>
      <CannotTaste panel={panel} />
    </Section>
  )
}

function CannotTaste({ panel: { cannotTaste, barredSeats } }: { panel: PanelReading }) {
  if (cannotTaste.length === 0) return null
  const who = (why: string) => cannotTaste.filter((one) => one.why === why).map(({ name }) => name)
  const [one, both] = [who('opened-serving-list'), who('opened-both-lists')]
  return (
    <div className="mt-4">
      <Notice look="caution">
        {one.length > 0 && `${listed(one)} opened the serving list and cannot taste. `}
        {both.length > 0 && `${listed(both)} opened both lists, ${know(both)} which cup is which, and cannot taste. `}
        {barredSeats.length > 0 &&
          `${barredSeats.length === 1 ? 'Seat' : 'Seats'} ${listed(barredSeats.map(String))} ${barredSeats.length === 1 ? 'takes' : 'take'} no more scores for that reason; what was scored before counts.`}
      </Notice>
    </div>
  )
}

const know = (names: readonly string[]) => (names.length === 1 ? 'knows' : 'know')

function Readers({ panel, list, zone }: { panel: PanelReading; list: string; zone: string }) {
  const readers = panel.listReaders.filter((reader) => reader.list === list)
  if (readers.length === 0) return <p className="text-s">Nobody has opened it yet.</p>
  return (
    <ul className="text-s">
      {readers.map((reader) => (
        <li key={reader.at.toISOString() + reader.name}>
          {reader.name}, <Moment at={reader.at} zone={zone} />
        </li>
      ))}
    </ul>
  )
}
