/** One score of one taster for one cup; null where the cell was left empty. */
export interface AcceptanceRow {
  readonly taster: string
  readonly cup: string
  readonly score: number | null
  readonly replicate?: string | null
  readonly position?: number | null
  readonly session?: string | null
  /** skipped for a reason that means dislike */
  readonly skipped?: boolean
}
