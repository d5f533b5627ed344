import type { ComponentProps } from 'react'
import { CostCard } from './cost-card'
import { DrinkCard } from './drink-card'
import { GlassCard } from './glass-card'

/** What one decides by, on one screen: the glass, what the drink comes to, what it costs. */
export function TopCards({ glass, figures, build }: ComponentProps<typeof GlassCard>) {
  return (
    <div className="grid items-stretch gap-3 md:grid-cols-2 lg:grid-cols-[18.5rem_minmax(0,1fr)_18.5rem] print:grid-cols-3">
      <GlassCard glass={glass} figures={figures} build={build} />
      <DrinkCard figures={figures} iced={build.lines.some(({ form }) => form === 'ice')} />
      <CostCard figures={figures} build={build} />
    </div>
  )
}
