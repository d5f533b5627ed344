import 'server-only'
import type { Plan, PlanProblem, Stage } from '@/lib/panel/plan'
import type { ListName } from '@/lib/panel/pouring-list'
import type { TooMuch } from '@/lib/panel/who-may-taste'
import type { Cautions } from './panel-cautions'
import type { PastBatch } from '../store/past-batches'
import type { BatchesApart } from '@/lib/panel/batches-apart'
import type { TodaysBatch } from '../trial/todays-batches'
import type { CupLook } from './look-at-cups'

export interface PanelCup {
  readonly trialId: string
  readonly trialName: string
  readonly trialNumber: number
  readonly isHouse: boolean
  readonly isDuplicate: boolean
  readonly isArchived: boolean
  /** ingredients whose labels nobody has read for allergens */
  readonly unread: readonly { readonly id: string | null; readonly name: string }[]
  /** batches on its sheet that are past their date; only of a panel that is still to be poured */
  readonly past: readonly PastBatch[]
  /** of each line that names a preparation: the batch that stands for it; only of a panel that is still to be poured */
  readonly todays: readonly TodaysBatch[]
  readonly isEmpty: boolean
  /** why it cannot be worked out, and so not be frozen; only of a draft's cups */
  readonly toMend: string | null
}

export interface ListReader {
  readonly list: ListName
  readonly name: string
  readonly at: Date
}

/** A panel as its readers may see it at any stage: never a letter, a code, a seed or a token. */
export interface PanelReading {
  readonly id: string
  /** what a page of the plan was opened with */
  readonly mark: string
  readonly title: string
  readonly publicTitle: string
  readonly question: string
  readonly stage: Stage
  readonly recipe: { readonly id: string; readonly name: string }
  readonly plan: Plan
  readonly cups: readonly PanelCup[]
  readonly sampleMl: number | null
  readonly portionsPerCup: number
  /** what one taster gets to drink */
  readonly mlPerTaster: number | null
  /** to make of each cup, spills and spare portions included */
  readonly mlPerCup: number | null
  readonly isDemo: boolean
  readonly copiedFromId: string | null
  readonly createdAt: Date
  readonly openedAt: Date | null
  readonly closedAt: Date | null
  readonly calledOffAt: Date | null
  readonly plannedBy: string | null
  readonly openedBy: string | null
  readonly closedBy: string | null
  readonly calledOffBy: string | null
  /** what keeps a draft shut; a panel that was opened has none */
  readonly problems: readonly PlanProblem[]
  readonly looks: readonly CupLook[]
  /** preparations of which two cups would get two batches; only of a panel that is still to be poured */
  readonly apart: readonly BatchesApart[]
  readonly cautions: Cautions
  readonly listReaders: readonly ListReader[]
  /** who has opened too much to taste */
  readonly cannotTaste: readonly { readonly name: string; readonly why: TooMuch }[]
  /** seats that take no more scores for that reason */
  readonly barredSeats: readonly number[]
  readonly phoneReachedAt: Date | null
}
