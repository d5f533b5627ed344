import { expect, test } from 'vitest'
import { circleRadius, cornersOf } from '@/app/ui/mark-shape'

const AREA = 150

// d3-shape 3.2.0: symbol().type(symbolSquare).size(150)() and so on; the corners from which its outline goes round to the right
test.each([
  ['square', '-6.124,-6.124 6.124,-6.124 6.124,6.124 -6.124,6.124'],
  ['triangle', '0.000,-10.746 9.306,5.373 -9.306,5.373'],
  ['diamond', '0.000,-11.398 6.580,0.000 0.000,11.398 -6.580,0.000'],
  [
    'cross',
    '-2.739,-8.216 2.739,-8.216 2.739,-2.739 8.216,-2.739 8.216,2.739 2.739,2.739 2.739,8.216 -2.739,8.216 -2.739,2.739 -8.216,2.739 -8.216,-2.739 -2.739,-2.739',
  ],
  [
    'star',
    '0.000,-11.559 2.595,-3.572 10.994,-3.572 4.199,1.364 6.795,9.352 0.000,4.415 -6.795,9.352 -4.199,1.364 -10.994,-3.572 -2.595,-3.572',
  ],
] as const)('the corners of a %s', (shape, outline) => {
  const wanted = outline.split(' ').map((corner) => corner.split(',').map(Number))
  const corners = cornersOf(shape, AREA)
  expect(corners).toHaveLength(wanted.length)
  const away = wanted.map(([x = NaN, y = NaN]) => Math.min(...corners.map(([a, b]) => Math.hypot(a - x, b - y))))
  expect(Math.max(...away)).toBeLessThan(0.001)
})

test('a circle of that area', () => {
  // d3-shape 3.2.0, symbolCircle
  expect(circleRadius(AREA)).toBeCloseTo(6.90988298942671, 12)
})

test.each(['square', 'triangle', 'diamond', 'cross', 'star'] as const)('a %s has its area, in one round', (shape) => {
  const corners = cornersOf(shape, AREA)
  // the surveyor's formula: half the sum of x·y' − x'·y over the outline
  const twice = corners.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = corners[(i + 1) % corners.length] ?? [NaN, NaN]
    return sum + x * nextY - nextX * y
  }, 0)
  expect(twice / 2).toBeCloseTo(AREA, 9)
})
