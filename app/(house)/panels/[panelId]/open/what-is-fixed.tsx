import { sayQuestion } from '@/lib/forms/question-choices'
import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import { counted, cupName, listed, sayAsked } from '../../panel-words'
import { pourAmounts } from '../pour-amounts'

/** The plan once more, as the things that nobody can change from now on. */
export function WhatIsFixed({ panel }: { panel: PanelReading }) {
  const { plan } = panel
  const own = panel.cups.filter((cup) => !cup.isDuplicate)
  const twice = panel.cups.find((cup) => cup.isDuplicate)
  const asked = ['overall liking', ...plan.aspects.map(sayQuestion)]
  return (
    <ul className="grid max-w-prose list-disc gap-2 ps-5">
      <li>
        These trials freeze with every line and batch: {listed(own.map(cupName))}
        {twice && `; ${cupName(twice)} is served twice, hidden`}.
      </li>
      <li>The question, and how it will be answered, as above.</li>
      <li>
        {plan.asks
          ? `What is asked of the ${own.length === 2 ? 'two' : own.length} together: ${sayAsked(plan.asks)}`
          : `What is asked of each cup: ${listed(asked)}`}
        . What tasters read: “{panel.publicTitle}”.
      </li>
      <li>
        {counted(plan.seatCount, 'seat')} get codes, orders and cards now; seats can be added later, not taken away.
      </li>
      <li>{pourAmounts(panel)}</li>
      <li>
        {plan.seenThrough === null
          ? 'It is said that nothing that can be seen gives a cup away.'
          : `It is called partly blind: ${plan.seenThrough}.`}
      </li>
    </ul>
  )
}
