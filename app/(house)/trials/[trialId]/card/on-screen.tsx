import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import { PastBatches } from '@/app/ui/past-batches'
import { TodaysBatches } from '@/app/ui/todays-batches'

/** What is true today alone, and so is not printed on a card that hangs for months. */
export function OnScreen({ sheet: { past, undated, todays }, zone }: { sheet: TrialSheet; zone: string }) {
  return (
    <div className="screen-only grid gap-3 empty:hidden">
      <PastBatches past={past} undated={undated} zone={zone} />
      <TodaysBatches todays={todays} zone={zone} />
    </div>
  )
}
