/**
 * A trial file as plain data: a chain of preparations, each poured `times` over into the next, the last into the glass. The
 * innermost is 100 g of sugar in 100 g of water; every other is the one below it and nothing else.
 */
export function nestedFile(levels: number, times: number) {
  const line = (name: string, kind: string, targetGrams: number, preparation: string | null) => ({
    name,
    kind,
    targetGrams,
    preparation,
  })
  const innermost = {
    name: 'Level 1',
    kind: 'syrup',
    outputGrams: 200,
    inputs: [
      { ...line('Beet sugar', 'sweetener', 100, null), composition: { sugars: 100, water: 0 } },
      { ...line('Water', 'water', 100, null), composition: { sugars: 0, water: 100 } },
    ],
  }
  const preparations = Object.fromEntries(
    Array.from({ length: levels }, (_, place) => {
      const level = place + 1
      if (level === 1) return ['level-1', innermost]
      const inputs = Array.from({ length: times }, () =>
        line(`Level ${level - 1}`, 'sweetener', 100, `level-${level - 1}`),
      )
      return [`level-${level}`, { name: `Level ${level}`, kind: 'syrup', outputGrams: 100 * times, inputs }]
    }),
  )
  return {
    kind: 'sipwright-trial',
    version: 1,
    name: 'Tower',
    allergenList: 'eu',
    preparations,
    lines: [line(`Level ${levels}`, 'sweetener', 50, `level-${levels}`)],
  }
}
