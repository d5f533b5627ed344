import 'server-only'
import { PROGRAM_VERSION } from '@/lib/base/program'
import type { PanelAnswer } from './answer-panel'

/** What panels were told by under the first rule; a later way of computing has another name, and is not what they were told. */
const METHOD = 'paired-or-model-2026-11'

/** The text of version 1 that a closed panel keeps. Whatever goes wrong in the statistics, there is one. */
export function writeFirstClosingAnswer(compute: () => PanelAnswer): string {
  const head = { version: 1, method: METHOD, program: PROGRAM_VERSION } as const
  try {
    return JSON.stringify({ ...head, outcome: 'answered', ...compute() })
  } catch (error) {
    if (!(error instanceof Error)) throw error
    return JSON.stringify({ ...head, outcome: 'not-computed', why: `${error.name}: ${error.message}` })
  }
}
