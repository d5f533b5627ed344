import type { PanelReading } from '@/lib/tasks/panel-reading'

/** Whether the page offers to open it; the task asks everything again. */
export function mayOpen({ problems, cups }: PanelReading): boolean {
  return problems.length === 0 && cups.every((cup) => cup.unread.length === 0 && !cup.isEmpty && !cup.isArchived)
}
