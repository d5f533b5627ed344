import type { ResultGlass } from '@/lib/tasks/result/read-result-glasses'
import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { Section } from '@/app/ui/page-frame'
import { ClaimsSection } from './claims'
import { GlassesSection } from './glasses'
import { MeansSection } from './numbers'
import { OtherReadings } from './seats-aside'
import { WhatToChange } from './what-to-change'
import { HowFound, Method, VerdictNumbers } from './verdict-parts'

/** A result with nobody's name in it: for paper, and for whoever was given a link. */
export function ResultSheet({
  result,
  glasses,
  zone,
  currency,
}: {
  result: NamelessResult
  glasses: readonly ResultGlass[]
  zone: string
  currency: string
}) {
  return (
    <>
      <ClaimsSection result={result} open />
      <VerdictNumbers result={result} />
      <HowFound result={result} zone={zone} />
      <OtherReadings readings={result.asideReadings} />
      <GlassesSection result={result} glasses={glasses} currency={currency} />
      <MeansSection result={result} open />
      <WhatToChange result={result} />
      <Section title="How this was computed">
        <Method result={result} />
      </Section>
    </>
  )
}
