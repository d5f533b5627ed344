import type { PanelReading } from '@/lib/tasks/plan/panel-reading'

/** Whether the page offers to open it; the task asks everything again. */
export function mayOpen({ problems, looks, cups }: PanelReading): boolean {
  const fits = problems.length === 0 && looks.length === 0
  return fits && cups.every((cup) => cup.unread.length === 0 && cup.toMend === null && !cup.isEmpty && !cup.isArchived)
}
