import type { SeatStanding } from './seat-table'

/** One part of the sentence for each way a seat can stand, in this order; a standing without words does not compile. */
const said: Readonly<Record<Exclude<SeatStanding, 'finished'>, (n: number) => string>> = {
  tasting: (n) => `${n} ${n === 1 ? 'is' : 'are'} tasting`,
  left: (n) => `${n} left before the last cup`,
  barred: (n) => `${n} ${n === 1 ? 'takes' : 'take'} no more scores`,
  'set-aside': (n) => `${n} ${n === 1 ? 'is' : 'are'} set aside`,
  free: (n) => `${n} ${n === 1 ? 'is' : 'are'} free`,
}

/** How far a panel has come, in one sentence that names every seat once. */
export function sayWatched(panel: {
  readonly stage: string
  readonly seats: readonly { readonly state: SeatStanding }[]
}): string {
  if (panel.stage !== 'open') return 'This panel is closed.'
  const all = panel.seats.length
  const count = (state: SeatStanding) => panel.seats.filter((seat) => seat.state === state).length
  if (count('free') === all) return `Nobody has taken a seat yet; ${all} ${all === 1 ? 'waits' : 'wait'}.`
  const finished = count('finished')
  const rest = (['tasting', 'left', 'barred', 'set-aside', 'free'] as const).flatMap((state) => {
    const n = count(state)
    return n === 0 ? [] : [said[state](n)]
  })
  const first = `${finished} of ${all} ${all === 1 ? 'seat' : 'seats'} ${finished === 1 || all === 1 ? 'has' : 'have'} finished`
  return `${[first, ...rest].join(', ')}.`
}
