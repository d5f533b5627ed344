import type { Kept } from '@/lib/tasks/privacy/read-kept'
import { Moment } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { sayKeptCup } from '@/app/ui/say-kept-cup'

/** One taster's record, to be read aloud or handed over on paper. */
export function KeptLines({ kept }: { kept: Kept }) {
  return (
    <>
      <Section title="Who">
        <dl className="grid gap-x-6 gap-y-1 sm:grid-cols-[12rem_1fr]">
          <dt className="text-soft">Name</dt>
          <dd>{kept.name ?? 'taken out'}</dd>
          <dt className="text-soft">Agreed to take part</dt>
          <dd>
            <Moment at={kept.agreedAt} zone={kept.zone} />
          </dd>
          <dt className="text-soft">Their phone</dt>
          <dd>{kept.hasBrowser ? 'a mark that it shows, no number and no address' : 'nothing'}</dd>
          {kept.isMember && (
            <>
              <dt className="text-soft">Team</dt>
              <dd>that they were signed in here</dd>
            </>
          )}
          <dt className="text-soft">The name goes</dt>
          <dd>{kept.nameDays ? `${kept.nameDays} days after that` : 'when they ask'}</dd>
        </dl>
      </Section>
      <Section title="What they answered">
        {kept.cups === null ? (
          <p>Shown here once the panel has closed: nobody reads a score before. Their own phone shows it to them.</p>
        ) : (
          <ul className="grid gap-1">
            {kept.cups.map((cup) => (
              <li key={cup.code}>
                Cup {cup.code}: {sayKeptCup(cup)}
              </li>
            ))}
          </ul>
        )}
      </Section>
    </>
  )
}
