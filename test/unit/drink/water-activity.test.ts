import { expect, test } from 'vitest'
import { keepingDays, keepingNote, keepingScreen, waterActivity } from '@/lib/drink/water-activity'
import type { SyrupMaking } from '@/lib/drink/water-activity'

const made = (over: Partial<SyrupMaking> = {}): SyrupMaking => ({
  heated: true,
  packagedHot: false,
  acidity: null,
  infused: false,
  ...over,
})

// Rows of the US Food Code tables A and B (interaction of pH and water activity), read one by one.
test.each([
  [0.87, false, 7, 'control-not-asked'],
  [0.89, false, 5.0, 'control-not-asked'],
  [0.89, false, 5.1, 'assessment-needed'],
  [0.91, false, 4.6, 'control-not-asked'],
  [0.91, false, 4.7, 'assessment-needed'],
  [0.93, false, 4.1, 'control-not-asked'],
  [0.93, false, 4.2, 'assessment-needed'],
  [0.92, true, 7, 'control-not-asked'],
  [0.94, true, 5.6, 'control-not-asked'],
  [0.94, true, 5.7, 'assessment-needed'],
  [0.97, true, 4.6, 'control-not-asked'],
  [0.97, true, 4.7, 'assessment-needed'],
] as const)('water activity %d, packaged hot %s, pH %d: %s', (activity, packagedHot, acidity, screen) => {
  expect(keepingScreen(activity, made({ packagedHot, acidity }))).toBe(screen)
})

test('an acidity nobody measured counts as none, an infusion is always asked about', () => {
  expect(keepingScreen(0.93, made())).toBe('assessment-needed')
  expect(keepingScreen(0.7, made({ infused: true, acidity: 3 }))).toBe('assessment-needed')
})

test('every note sends the reader to the local rules', () => {
  for (const brix of [20, 50, 65, 75]) {
    for (const infused of [true, false]) {
      expect(keepingNote(brix, made({ infused }))).toContain('Follow your local food-safety rules')
    }
  }
  expect(keepingNote(50, made())).toContain('7 days')
  expect(keepingNote(66.7, made())).toContain('2 to 4 weeks')
})

test('the days agree with the note: a week where it can spoil, four above 60 Brix', () => {
  expect(keepingDays(50, made())).toBe(7)
  expect(keepingDays(66.7, made())).toBe(28)
  expect(keepingDays(66.7, made({ infused: true }))).toBe(7)
})

test('more sugar leaves less free water, and none is refused', () => {
  for (let brix = 1; brix < 85; brix++) expect(waterActivity(brix)).toBeLessThan(waterActivity(brix - 1))
  expect(waterActivity(0)).toBe(1)
  expect(() => waterActivity(100)).toThrow('got 100')
  expect(() => keepingScreen(1.1, made())).toThrow('got 1.1')
})
