import type { PanelResult } from '@/lib/tasks/result/read-result'
import { Moment } from '@/app/ui/moment'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { saySkip } from './evidence'

/** What was typed in from paper and then typed differently: what stood is kept, what stands counts. */
export function Corrections({ result, zone }: { result: PanelResult; zone: string }) {
  const { corrections } = result
  if (corrections.length === 0) return null
  return (
    <Section title="Corrected while the panel was open">
      <p className="max-w-prose">
        {corrections.length === 1 ? '1 answer' : `${corrections.length} answers`} typed in from paper{' '}
        {corrections.length === 1 ? 'was' : 'were'} typed differently later. What stands now is what counts.
      </p>
      <Fold words="What stood, what stands, who and when">
        <ScrollTable label="Corrections" heads={['Seat', 'Cup', 'What', 'It stood', 'It stands', 'By', 'When']}>
          {corrections.map(({ seat, letter, what, stood, stands, by, at }, order) => [
            String(order),
            String(seat),
            letter,
            what,
            say(what, stood),
            stands === null ? 'blank' : say(what, stands),
            by,
            <Moment key="at" at={at} zone={zone} />,
          ])}
        </ScrollTable>
      </Fold>
    </Section>
  )
}

function say(what: string, said: string): string {
  return what === 'skipped' ? (saySkip[said] ?? said) : said
}
