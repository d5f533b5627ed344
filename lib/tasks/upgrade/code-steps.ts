import 'server-only'
import type { CodeSteps } from '@/lib/db/engine/migrate'
import { mendFirst } from './0002-mend-first'

/** The code of every migration that asks for some, by the migration's name: whoever brings a database up to date passes these. */
export const codeSteps: CodeSteps = { '0002-mend-first': mendFirst }
