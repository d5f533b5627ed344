import { demand } from '@/lib/base/demand'

/** Chance that nobody can repeat: the app passes the operating system's, never a seed. */
export interface Chance {
  /** a whole number from 0 to n − 1, each equally likely */
  below(n: number): number
}

/**
 * Numbers that mean something to people before they have tasted anything.
 *
 * Source   trade practice: 123 and 911, and numbers of one digit; 100, 112, 321 and 420 are our own additions
 */
const LOADED = new Set(['100', '112', '123', '321', '420', '911'])

/** The codes that may be dealt: 100 … 999 without 111, 222 … 999 and without the loaded ones. */
const DECK: readonly string[] = Array.from({ length: 900 }, (_, at) => String(at + 100)).filter(
  (code) => new Set(code).size > 1 && !LOADED.has(code),
)

/** Told apart by ear and by eye, also upside down on a jug: no two that rhyme, no I, O, Q, S; A, B, C would rank. */
const CLEAR_LETTERS = 'FHKLMRTXY'
/** Taken only when the clear ones are used up. */
const MORE_LETTERS = 'ABCJPWZ'

/**
 * Which three-digit code goes on which serving?
 *
 *     seat by seat, each code drawn from those used least in this panel; within a seat all codes differ, and so do their
 *     first digits as long as the digits last, because a glance at a tray takes in the first digit
 *
 * @param seats         number of seats to deal for
 * @param cupsPerSeat   servings on each tray
 * @param random        not seeded: whoever could repeat it would know every code
 * @param taken         codes already on servings of this panel, each as often as it is used
 * @returns             one row of codes per seat, in the order of tasting
 * @throws RangeError   a negative or broken number, or more cups on a tray than there are codes
 *
 * Source   ISO 4120:2021 and ISO 6658:2017: three-digit random codes, different for each sample and preferably for each
 *          assessor; first digits and loaded numbers: common practice
 * Checked  test/unit/panel/code.test.ts
 * Limits   Beyond 885 servings a code comes a second time in the panel, never on the same tray.
 */
export function dealSeatCodes(
  seats: number,
  cupsPerSeat: number,
  random: Chance,
  taken: Iterable<string> = [],
): string[][] {
  demand(Number.isInteger(seats) && seats >= 0, `seats must be a whole number, got ${seats}`)
  demand(
    Number.isInteger(cupsPerSeat) && cupsPerSeat >= 0 && cupsPerSeat <= DECK.length,
    `a tray holds 0 to ${DECK.length} cups, got ${cupsPerSeat}`,
  )
  const uses = new Map(DECK.map((code) => [code, 0]))
  const spend = (code: string): unknown => uses.has(code) && uses.set(code, (uses.get(code) ?? 0) + 1)
  for (const code of taken) spend(code)

  return Array.from({ length: seats }, () => {
    const tray: string[] = []
    while (tray.length < cupsPerSeat) {
      const code = draw(freshest(uses, tray), tray, random)
      tray.push(code)
      spend(code)
    }
    return tray
  })
}

/**
 * Which codes stand on these servings, when trays do not matter?
 *
 * @param howMany  servings
 * @param random   not seeded
 * @param taken    codes already used in this panel
 *
 * Source   as `dealSeatCodes`
 * Checked  test/unit/panel/code.test.ts
 */
export function dealCodes(howMany: number, random: Chance, taken: Iterable<string> = []): string[] {
  return dealSeatCodes(howMany, 1, random, taken).flat()
}

/**
 * Which letter stands on which jug?
 *
 * @param cups    number of jugs, at most 16
 * @returns       different letters in random order: the letter says nothing about the cup
 * @throws RangeError  more jugs than letters
 *
 * Source   our own choice of letters
 * Checked  test/unit/panel/code.test.ts
 */
export function dealJugLetters(cups: number, random: Chance): string[] {
  const most = CLEAR_LETTERS.length + MORE_LETTERS.length
  demand(Number.isInteger(cups) && cups >= 0 && cups <= most, `there are letters for 0 to ${most} jugs, got ${cups}`)
  const clear = shuffleCups([...CLEAR_LETTERS], random).slice(0, cups)
  const more = shuffleCups([...MORE_LETTERS], random).slice(0, cups - clear.length)
  return shuffleCups([...clear, ...more], random)
}

/**
 * Which cup is to be number 1, 2, 3 …?
 *
 * @returns  a new list, all orders equally likely (Fisher and Yates)
 *
 * Checked  test/unit/panel/code.test.ts
 */
export function shuffleCups<T>(cups: readonly T[], random: Chance): T[] {
  const drawn = [...cups]
  for (let last = drawn.length - 1; last > 0; last -= 1) {
    const at = random.below(last + 1)
    const kept = drawn[last] as T
    drawn[last] = drawn[at] as T
    drawn[at] = kept
  }
  return drawn
}

/** The codes used least, without those on this tray. */
function freshest(uses: ReadonlyMap<string, number>, tray: readonly string[]): string[] {
  const open = [...uses].filter(([code]) => !tray.includes(code))
  const least = Math.min(...open.map(([, count]) => count))
  return open.filter(([, count]) => count === least).map(([code]) => code)
}

/** A first digit new to this tray if there is one, then a code that begins with it. */
function draw(open: readonly string[], tray: readonly string[], random: Chance): string {
  const first = (code: string): string => code.charAt(0)
  const onTray = new Set(tray.map(first))
  const digits = [...new Set(open.map(first))]
  const fresh = digits.filter((digit) => !onTray.has(digit))
  const choice = fresh.length > 0 ? fresh : digits
  const digit = choice[random.below(choice.length)]
  const codes = open.filter((code) => first(code) === digit)
  const code = codes[random.below(codes.length)]
  demand(code !== undefined, `no code left that begins with ${digit}`)
  return code
}
