import Link from 'next/link'
import type { ReactNode } from 'react'
import { sayPlanProblem } from '@/lib/forms/panel-form'
import { sayQuestion } from '@/lib/forms/question-choices'
import type { PanelCup, PanelReading } from '@/lib/tasks/plan/panel-reading'
import { Cautions } from '@/app/ui/cautions'
import { localRules, Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { counted, sayAsked, sayComparison } from '../panel-words'
import { sayLook } from '../say-look'
import { CaffeineLine } from './caffeine-line'
import { pourAmounts } from './pour-amounts'

/** The plan as it stands: question, cups, what is asked, what tasters are told, what is poured. */
export function PlanParts({ panel }: { panel: PanelReading }) {
  return (
    <>
      <Section title="Question">
        <p className="max-w-prose text-l">{panel.question}</p>
        <p className="mt-2 max-w-prose">{sayComparison(panel)}</p>
        <WhatIsWrong panel={panel} />
      </Section>
      <Section title="Cups" aside={counted(panel.cups.length, 'cup')}>
        <ul className="divide-y divide-line">
          {panel.cups.map((cup, at) => (
            <CupLine key={at} cup={cup} />
          ))}
        </ul>
      </Section>
      <Section title="What tasters see and are told">
        <Told panel={panel} />
      </Section>
      <Section title="Pouring">
        <Pouring panel={panel} />
      </Section>
    </>
  )
}

function WhatIsWrong({ panel }: { panel: PanelReading }) {
  const words = [
    ...panel.problems.map((problem) => sayPlanProblem[problem]),
    ...panel.looks.map(({ problem, ...names }) => sayLook(problem, names)),
  ]
  return words.map((sentence) => (
    <p key={sentence} className="mt-2 max-w-prose font-semibold text-stop">
      {sentence}
    </p>
  ))
}

function CupLine({ cup }: { cup: PanelCup }) {
  return (
    <li className="py-2">
      <div className="flex flex-wrap items-baseline justify-between gap-x-4">
        <Link href={`/trials/${cup.trialId}`} prefetch={false} className="inline-flex min-h-11 items-center">
          {cup.trialName}
        </Link>
        <span className="text-s text-soft">
          {[`trial ${cup.trialNumber}`, cup.isHouse && 'house recipe', cup.isDuplicate && 'hidden duplicate']
            .filter(Boolean)
            .join(', ')}
        </span>
      </div>
      {cup.isArchived && <Problem>This trial was archived; change the plan.</Problem>}
      {cup.isEmpty && <Problem>This trial has no ingredients, so nobody can say what is in it.</Problem>}
      {cup.toMend !== null && (
        <Problem>
          It cannot be worked out, so it cannot be frozen: {cup.toMend}{' '}
          <Link href={`/trials/${cup.trialId}/edit`} prefetch={false}>
            Mend {cup.trialName}
          </Link>
          .
        </Problem>
      )}
      {cup.unread.length > 0 && (
        <Problem>
          Not read for allergens yet:{' '}
          {cup.unread.map((one, at) => (
            <span key={one.name}>
              {at > 0 && ', '}
              <Link href={one.id ? `/store/ingredients/${one.id}` : '/store'} prefetch={false}>
                {one.name}
              </Link>
            </span>
          ))}
          . Read each label and say so there; until then nobody may drink it blind.
        </Problem>
      )}
    </li>
  )
}

function Problem({ children }: { children: ReactNode }) {
  return <p className="max-w-prose text-s font-semibold text-stop">{children}</p>
}

function Told({ panel }: { panel: PanelReading }) {
  const { asks } = panel.plan
  const asked = panel.plan.aspects.length > 0 ? `, then ${panel.plan.aspects.map(sayQuestion).join('; then ')}` : ''
  return (
    <div className="grid max-w-prose gap-3">
      <dl className="grid grid-cols-[auto_1fr] gap-x-4 gap-y-1">
        <Fact name="Title">“{panel.publicTitle}”</Fact>
        <Fact name="Asked">{asks ? sayAsked(asks) : `overall liking${asked}; a comment if they like`}</Fact>
        <Fact name="Allergens">by the list “{panel.cautions.list}”</Fact>
      </dl>
      <Cautions said={panel.cautions.said.map(({ words }) => words)} />
    </div>
  )
}

function Fact({ name, children }: { name: string; children: ReactNode }) {
  return (
    <>
      <dt className="text-soft">{name}</dt>
      <dd>{children}</dd>
    </>
  )
}

function Pouring({ panel }: { panel: PanelReading }) {
  return (
    <div className="grid max-w-prose gap-3">
      <p>{pourAmounts(panel)}</p>
      <CaffeineLine panelId={panel.id} />
      <p>
        <Seen plan={panel.plan} />
      </p>
      <Notice look="caution">
        Whatever one seat drinks adds up, caffeine and sugar too. Cold milk and plant drinks at 5 °C or below; what
        stood warm is thrown away, not served. {localRules}
      </Notice>
    </div>
  )
}

/** Only what somebody said: an empty field says nothing about the look of the cups. */
function Seen({ plan }: { plan: PanelReading['plan'] }) {
  const mask = plan.asks?.kind === 'difference' ? plan.asks.mask : null
  if (plan.seenThrough !== null)
    return (
      <strong>
        Partly blind: {plan.seenThrough}.{mask !== null && ` Hidden: ${mask}.`}
      </strong>
    )
  return plan.nothingSeen
    ? 'Somebody looked at the cups: nothing that can be seen gives one away.'
    : 'Nobody has said whether a cup can be told by its look.'
}
