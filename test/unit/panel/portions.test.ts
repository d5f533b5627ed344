import { expect, test } from 'vitest'
import { servingOrders } from '@/lib/panel/order'
import { planLimits } from '@/lib/panel/plan'
import { cupsOnTray, mlToPour, portionsPerCup, sparePortions } from '@/lib/panel/portions'

// Worked by hand from V = tasters · ml · (1 + overage), common practice, no source: 24 · 40 · 1.15 = 1104.
test('what to pour is what is drunk and 15 % more', () => {
  expect(mlToPour(24, 40)).toBe(1104)
  expect(mlToPour(1, 1)).toBe(2)
})

test('one spare portion for every ten portions begun', () => {
  expect([1, 10, 11, 24].map(sparePortions)).toEqual([1, 1, 2, 3])
})

test('a tray holds all cups, or as many as the plan gives each taster', () => {
  expect(cupsOnTray({ cups: 5, cupsPerTaster: null })).toBe(5)
  expect(cupsOnTray({ cups: 5, cupsPerTaster: 3 })).toBe(3)
  expect(cupsOnTray({ cups: 5, cupsPerTaster: 8 })).toBe(5)
})

test('portions of a cup: as many as seats, or the share of them that gets it', () => {
  expect(portionsPerCup({ seats: 24, cups: 5, cupsPerTaster: null })).toBe(24)
  // 24 seats × 4 cups are 96 portions of 6 cups, 16 each; 25 seats 100, 16.67 each.
  expect(portionsPerCup({ seats: 24, cups: 6, cupsPerTaster: 4 })).toBe(16)
  expect(portionsPerCup({ seats: 25, cups: 6, cupsPerTaster: 4 })).toBe(17)
  expect(portionsPerCup({ seats: 24, cups: 0, cupsPerTaster: null })).toBe(0)
})

const { cups: cupLimits, cupsPerTaster, tastingsPerCup } = planLimits
const plans = Array.from({ length: cupLimits.most - 2 }, (_, at) => at + 3).flatMap((cups) =>
  Array.from({ length: cupsPerTaster.most - 1 }, (_, at) => ({ cups, each: at + 2 })).filter(({ each }) => each < cups),
)
test.each(plans)(
  '$each of $cups cups each: no cup is served more often than it is poured, and none stands by itself',
  ({ cups, each }) => {
    const least = Math.ceil((tastingsPerCup * cups) / each)
    for (const seats of [least, least + 3]) {
      const { orders } = servingOrders({ cups, perTaster: each, tasters: seats, seed: seats })
      const served = Array.from({ length: cups }, (_, at) => orders.flat().filter((cup) => cup === at + 1).length)
      expect(Math.max(...served), `${seats} seats`).toBeLessThanOrEqual(
        portionsPerCup({ seats, cups, cupsPerTaster: each }),
      )
      expect(groupsOf(orders, cups), `${seats} seats`).toBe(1)
    }
  },
)

/** How many groups of cups have no taster in common? One: every cup can be compared with every other. */
function groupsOf(orders: readonly (readonly number[])[], cups: number): number {
  const group = Array.from({ length: cups }, (_, at) => at)
  for (const order of orders) {
    const here = new Set(order.map((cup) => group[cup - 1]))
    const [first = 0] = here
    group.forEach((one, at) => {
      if (here.has(one)) group[at] = first
    })
  }
  return new Set(group).size
}
