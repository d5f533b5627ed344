import type { PanelResult } from '@/lib/tasks/result/read-result'
import { Fold, Section } from '@/app/ui/page-frame'
import { OtherPairs } from './claims'
import { Corrections } from './corrections'
import { Aspects, Comments, MissingLines } from './evidence'
import { SpreadTable } from './numbers'
import { Method } from './verdict-parts'

/** What stands behind the planned comparisons: to look at, to doubt, to ask next. */
export function BehindIt({ result, zone }: { result: PanelResult; zone: string }) {
  return (
    <>
      <OtherPairs result={result} />
      {result.spread.some(({ counts }) => counts.some((count) => count > 0)) && (
        <Section title="How the scores are spread">
          <SpreadTable result={result} />
        </Section>
      )}
      <Aspects result={result} />
      <Section title="What tasters wrote">
        <Comments result={result} />
      </Section>
      <Section title="What is missing">
        <MissingLines result={result} zone={zone} />
      </Section>
      <Corrections result={result} zone={zone} />
      <Fold words="How this was computed, and how far to trust it">
        <Method result={result} />
      </Fold>
    </>
  )
}
