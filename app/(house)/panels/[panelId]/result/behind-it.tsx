import type { PanelResult } from '@/lib/tasks/result/read-result'
import { Fold, Section } from '@/app/ui/page-frame'
import { OtherPairs } from './claims'
import { SetAsidePart } from '../set-aside-part'
import { Corrections } from './corrections'
import { Aspects, Comments, MissingLines } from './evidence'
import { SpreadTable } from './numbers'
import { Method } from './verdict-parts'
import { WhatToChange } from './what-to-change'

/**
 * What stands behind the planned comparisons: to look at, to doubt, to ask next.
 *
 * @param runs  whoever reads this may set a seat aside
 */
export function BehindIt({ result, zone, runs }: { result: PanelResult; zone: string; runs: boolean }) {
  return (
    <>
      <WhatToChange result={result} />
      <OtherPairs result={result} />
      {result.spread.some(({ counts }) => counts.some((count) => count > 0)) && (
        <Section title="How the scores are spread">
          <SpreadTable result={result} />
        </Section>
      )}
      <Aspects result={result} />
      {(result.kind === 'liking' || result.comments.length > 0) && (
        <Section title="What tasters wrote">
          <Comments result={result} />
        </Section>
      )}
      <Section title="What is missing">
        <MissingLines result={result} zone={zone} />
      </Section>
      <Corrections result={result} zone={zone} />
      {runs && (
        <Fold words="Set a seat aside">
          <SetAsidePart panelId={result.id} from="result" />
        </Fold>
      )}
      <Fold words="How this was computed, and how far to trust it">
        <Method result={result} />
      </Fold>
    </>
  )
}
