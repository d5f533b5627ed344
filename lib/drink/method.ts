import type { Brewing } from './trial'

/** A way to make the coffee: its trade name and how water meets the grounds. */
export interface Method {
  readonly id: string
  readonly words: string
  /** null: no coffee is brewed for this glass; it comes from a preparation or there is none */
  readonly brewing: Brewing | null
}

/**
 * Which ways of brewing are there?
 *
 * Source   trade names; no registered name of a device stands for the method
 * Checked  test/unit/drink/method.test.ts
 */
export const methods: readonly Method[] = [
  { id: 'plunger-pot', words: 'Plunger pot', brewing: 'immersion' },
  { id: 'cold-steep', words: 'Cold brew (steeped)', brewing: 'immersion' },
  { id: 'pour-over', words: 'Pour-over', brewing: 'percolation' },
  { id: 'drip', words: 'Drip', brewing: 'percolation' },
  { id: 'stovetop', words: 'Stovetop pot', brewing: 'percolation' },
  { id: 'espresso', words: 'Espresso', brewing: 'espresso' },
  { id: 'instant', words: 'Instant', brewing: 'dissolved' },
  { id: 'prepared', words: 'From a preparation', brewing: null },
  { id: 'no-coffee', words: 'No coffee', brewing: null },
]

const byId: ReadonlyMap<string, Method> = new Map(methods.map((method) => [method.id, method]))

/** What is this method called, and how does it extract? @returns null for an id not in `methods` */
export function findMethod(id: string): Method | null {
  return byId.get(id) ?? null
}
