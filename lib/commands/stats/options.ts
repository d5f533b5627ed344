import { Complaint, nearestOf } from './complaint'
import { decimal } from './decimal'

/** What a verb takes beside its file, each name with what it is for: with a value, or standing alone. */
export interface OptionNames {
  readonly values: Readonly<Record<string, string>>
  readonly flags?: Readonly<Record<string, string>>
}

const REPEATABLE = 'where'

/** The options of one call. Every getter complains in the words of the command line. */
export class Options {
  private constructor(
    readonly words: readonly string[],
    private readonly given: ReadonlyMap<string, readonly string[]>,
    private readonly flags: ReadonlySet<string>,
  ) {}

  /** @param argv  what follows the verb */
  static parse(argv: readonly string[], names: OptionNames): Options {
    const [values, flags] = [Object.keys(names.values), Object.keys(names.flags ?? {})]
    const words: string[] = []
    const given = new Map<string, string[]>()
    const set = new Set<string>()
    for (let at = 0; at < argv.length; at += 1) {
      const word = argv[at] ?? ''
      if (!word.startsWith('--')) {
        words.push(word)
        continue
      }
      const [name = '', inline] = splitOnce(word.slice(2), '=')
      if (flags.includes(name) && inline === undefined) {
        set.add(name)
        continue
      }
      if (!values.includes(name)) {
        throw new Complaint(`--${name} is not an option here${nearestOf(name, [...values, ...flags], '--')}`)
      }
      const value = inline ?? argv[(at += 1)]
      if (value === undefined || (inline === undefined && value.startsWith('--'))) {
        throw new Complaint(`--${name} needs a value`)
      }
      const earlier = given.get(name) ?? []
      if (earlier.length > 0 && name !== REPEATABLE) throw new Complaint(`--${name} is given twice`)
      given.set(name, [...earlier, value])
    }
    return new Options(words, given, set)
  }

  has(name: string): boolean {
    return this.given.has(name)
  }

  flag(name: string): boolean {
    return this.flags.has(name)
  }

  all(name: string): readonly string[] {
    return this.given.get(name) ?? []
  }

  text(name: string): string | undefined {
    return this.given.get(name)?.[0]
  }

  number(name: string): number | undefined {
    const text = this.text(name)
    if (text === undefined) return undefined
    const value = decimal(text.trim())
    if (typeof value === 'string') throw new Complaint(`--${name}: ${value}`)
    return value
  }

  needNumber(name: string): number {
    const value = this.number(name)
    if (value === undefined) throw new Complaint(`--${name} is needed`)
    return value
  }

  choice<Name extends string>(name: string, known: readonly Name[]): Name | undefined {
    const text = this.text(name)
    if (text === undefined) return undefined
    const found = known.find((one) => one === text)
    if (found === undefined) throw new Complaint(`--${name}: '${text}' is not known${nearestOf(text, known)}`)
    return found
  }

  needChoice<Name extends string>(name: string, known: readonly Name[]): Name {
    const value = this.choice(name, known)
    if (value === undefined) throw new Complaint(`--${name} is needed: ${known.join(', ')}`)
    return value
  }

  /** A number between 0 and 1, both excluded. */
  share(name: string): number {
    const value = this.needNumber(name)
    if (!(value > 0 && value < 1)) throw new Complaint(`--${name} must lie between 0 and 1, got ${value}`)
    return value
  }

  /** 0.95 unless said otherwise. */
  level(): number {
    return this.has('level') ? this.share('level') : 0.95
  }
}

/** "a=b=c" is a and b=c. */
export function splitOnce(text: string, mark: string): [string, string | undefined] {
  const at = text.indexOf(mark)
  return at < 0 ? [text, undefined] : [text.slice(0, at), text.slice(at + mark.length)]
}
