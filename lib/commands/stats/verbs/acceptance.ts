import { acceptance } from '@/lib/stats/acceptance'
import { checkCups } from '../known-label'
import type { Verb } from '../verb'

export const verb: Verb = {
  file: { needed: ['taster', 'cup', 'score'], optional: ['replicate', 'position', 'session'], oneAttribute: true },
  options: { values: ['control', 'margin', 'df'] },
  answer({ options, table }) {
    const rows = table?.rows ?? []
    const control = options.text('control')
    if (table && control !== undefined) checkCups(table, 'control', [control])
    const session = options.has('session')
    return acceptance(
      rows.map((row) => ({
        taster: row.label('taster'),
        cup: row.label('cup'),
        score: row.number('score'),
        replicate: row.text('replicate'),
        position: row.number('position'),
        session: session ? row.label('session') : null,
      })),
      {
        level: options.level(),
        session,
        replicated: table?.has('replicate') ?? false,
        df: options.choice('df', ['satterthwaite', 'kenward-roger']) ?? 'satterthwaite',
        ...(control === undefined ? {} : { control }),
        ...(options.has('margin') ? { margin: options.needNumber('margin') } : {}),
      },
    )
  },
}
