import type { PanelLine } from '@/lib/tasks/plan/read-panels'
import { counted, listed } from './panel-words'

/** What waits for whom, in one sentence. */
export function sayPanels(panels: readonly PanelLine[], reads: boolean): string {
  const count = (stage: PanelLine['stage']) => panels.filter((panel) => panel.stage === stage).length
  const [open, closed, draft] = [count('open'), count('closed'), count('draft')]
  const parts = [
    open > 0 ? `${counted(open, 'panel')} ${open === 1 ? 'is' : 'are'} open` : '',
    closed > 0 ? `${counted(closed, 'result')} ${closed === 1 ? 'waits' : 'wait'} for a decision` : '',
    draft > 0 ? `${counted(draft, 'draft')} ${draft === 1 ? 'is' : 'are'} not poured yet` : '',
  ].filter((part) => part !== '')
  if (parts.length > 0) return `${listed(parts)}.`
  return reads ? 'No panel waits for anybody.' : 'No panel is open.'
}
