import type { PanelResult } from '@/lib/tasks/result/read-result'
import { Moment } from '@/app/ui/moment'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { saySkip } from './evidence'

/** What was typed in from paper and then typed differently, or written over on another phone: what stood is kept. */
export function Corrections({ result, zone }: { result: PanelResult; zone: string }) {
  const { corrections } = result
  if (corrections.length === 0) return null
  return (
    <Section title="Corrected while the panel was open">
      <p className="max-w-prose">{sayCorrected(corrections)}</p>
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

function sayCorrected(corrections: PanelResult['corrections']): string {
  const desk = corrections.filter(({ from }) => from === 'desk').length
  const phone = corrections.length - desk
  return [
    ...(desk > 0
      ? [
          `${desk === 1 ? '1 answer' : `${desk} answers`} typed in from paper ${desk === 1 ? 'was' : 'were'} typed differently later.`,
        ]
      : []),
    ...(phone > 0
      ? [
          `${phone === 1 ? '1 comment was' : `${phone} comments were`} written over on the phone that the seat went on on.`,
        ]
      : []),
    'What stands now is what counts.',
  ].join(' ')
}
