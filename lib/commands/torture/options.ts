/** What is done to the house, and how much of it. */
export interface Wanted {
  /** of everything that is chosen by chance; the same seed chooses the same */
  readonly seed: number
  readonly phones: number
  /** how often the house is ended by force */
  readonly kills: number
  /** how long another connection holds the database, seconds */
  readonly lock: number
  /** how many panels are closed while scores are in flight */
  readonly closes: number
  /** how often each signal is sent */
  readonly signals: number
}

export type Chosen = { readonly ok: true; readonly wanted: Wanted } | { readonly ok: false; readonly problem: string }

const USUAL = { phones: 60, kills: 50, lock: 60, closes: 5, signals: 3 } as const
const MOST = { seed: 2 ** 32 - 1, phones: 200, kills: 10_000, lock: 3600, closes: 100, signals: 100 } as const
const NAMES = ['seed', 'phones', 'kills', 'lock', 'closes', 'signals'] as const

/** Reads the words behind `npm run torture --`: `--kills 3 --seed 7 …`; what is not said is as usual. */
export function chooseTorture(words: readonly string[], chance: () => number): Chosen {
  const said: Partial<Record<(typeof NAMES)[number], number>> = {}
  for (let at = 0; at < words.length; at += 2) {
    const [flag = '', value = ''] = words.slice(at, at + 2)
    const name = NAMES.find((one) => `--${one}` === flag)
    if (!name) return no(`'${flag}' is not an option; there are ${NAMES.map((one) => `--${one} N`).join(', ')}`)
    const number = Number(value)
    if (!/^\d+$/.test(value) || number > MOST[name])
      return no(`${flag} takes a whole number up to ${MOST[name]}, got '${value}'`)
    if (name === 'phones' && number === 0) return no('without a phone nothing is scored')
    said[name] = number
  }
  return { ok: true, wanted: { seed: chance(), ...USUAL, ...said } }
}

const no = (problem: string): Chosen => ({ ok: false, problem })
