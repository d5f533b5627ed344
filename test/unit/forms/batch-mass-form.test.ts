import { expect, test } from 'vitest'
import { readBatchMassForm } from '@/lib/forms/batch-mass-form'

test('a mass is read as any number is, nothing typed asks for nothing, and what cannot be read is said beside its field', () => {
  expect(readBatchMassForm({ grams: '1 230', pot: '640,5' })).toMatchObject({ grams: 1230, pot: 640.5, problems: {} })
  expect(readBatchMassForm({})).toMatchObject({ grams: null, pot: null, problems: {} })
  const slips = readBatchMassForm({ grams: '1,230', pot: '-3' })
  expect(slips).toMatchObject({ grams: null, pot: null, typed: { grams: '1,230', pot: '-3' } })
  expect(slips.problems.grams).toContain('can be read twice')
  expect(slips.problems.pot).toBeDefined()
})
