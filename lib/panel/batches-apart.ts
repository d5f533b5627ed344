/** A cup, and the batches that go into it. */
export interface CupBatches {
  readonly cup: string
  readonly batches: readonly { readonly name: string; readonly number: number }[]
}

/** One preparation of which the cups of a panel would get different batches: a difference that is no part of the question. */
export interface BatchesApart {
  readonly name: string
  /** by number */
  readonly batches: readonly { readonly number: number; readonly cups: readonly string[] }[]
}

/**
 * Of which preparation would two cups get two batches?
 *
 * Source   our own rule: what differs between cups is what the panel asks about
 * Checked  test/unit/panel/batches-apart.test.ts
 */
export function batchesApart(cups: readonly CupBatches[]): readonly BatchesApart[] {
  const found = new Map<string, Map<number, Set<string>>>()
  for (const { cup, batches } of cups) {
    for (const { name, number } of batches) {
      const own = found.get(name) ?? new Map<number, Set<string>>()
      own.set(number, (own.get(number) ?? new Set()).add(cup))
      found.set(name, own)
    }
  }
  return [...found].flatMap(([name, numbers]) => {
    const batches = [...numbers].toSorted(([a], [b]) => a - b)
    return batches.length < 2 ? [] : [{ name, batches: batches.map(([number, all]) => ({ number, cups: [...all] })) }]
  })
}
