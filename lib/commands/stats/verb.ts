import type { Options, OptionNames } from './options'
import type { Table } from './read-table'

/** One verb of the command: what it reads, what it takes, and the function of lib/stats or lib/panel it asks. */
export interface Verb {
  /** what it answers, for the help text */
  readonly about: string
  /** absent: the verb reads no file */
  readonly file?: {
    /** may be left out, when the options say everything */
    readonly unless?: string
    readonly needed: readonly string[]
    readonly optional?: readonly string[]
    readonly oneAttribute?: boolean
    /** how many different values a column may have, so that the answer comes within seconds */
    readonly most?: Readonly<Record<string, number>>
  }
  readonly options: OptionNames
  /** the verb wants one word more, before its options: what may it be? */
  readonly topics?: Readonly<Record<string, string>>
  /**
   * @param ask  the table is there when a file was given
   * @returns    the answer, with the contract's keys
   */
  answer(ask: { readonly options: Options; readonly table: Table | null; readonly topic: string }): object
}
