import { expect, test } from 'vitest'
import { readSizesForm, typedShares } from '@/lib/forms/sizes-form'

test('shares are percentages, an empty field keeps what was on the sheet, and what cannot be is said beside its field', () => {
  expect(readSizesForm({ ice: '40', coffee: '27,5' })).toMatchObject({
    shares: { ice: 0.4, coffee: 0.275 },
    problems: {},
  })
  expect(readSizesForm({})).toMatchObject({ shares: { ice: null, coffee: null }, problems: {} })
  expect(readSizesForm({ ice: '140', coffee: 'half' }).problems).toMatchObject({
    ice: expect.any(String),
    coffee: expect.any(String),
  })
  const over = readSizesForm({ ice: '60', coffee: '60' })
  expect(over).toMatchObject({
    shares: { ice: null, coffee: null },
    problems: { coffee: expect.stringContaining('more than') },
  })
})

test('what the recipe keeps holds until something is asked, and stands in the fields as it was typed', () => {
  expect(readSizesForm({}).isBare).toBe(true)
  expect(readSizesForm({ ice: '', coffee: '' }).isBare).toBe(false)
  expect(typedShares({ ice: 0.275, coffee: null })).toEqual({ ice: '27.5', coffee: '' })
})
