import { expect, test } from 'vitest'
import { JoinForm } from '@/lib/forms/join-form'

const whole = Object.freeze({ name: ' Ana ', consent: 'yes', unaffected: 'yes', unseen: 'yes' })

test('a name is trimmed; a button pressed beside it does no harm', () => {
  expect(JoinForm.parse({ ...whole, act: 'take' })).toMatchObject({ name: 'Ana' })
})

test.each(['name', 'consent', 'unaffected', 'unseen'] as const)('without "%s" no seat is asked for', (field) => {
  const read = JoinForm.safeParse({ ...whole, [field]: undefined })
  expect(read.success).toBe(false)
  expect(read.error?.issues.map(({ path }) => path[0])).toEqual([field])
})

test('a name of blanks only, or longer than the card, is refused', () => {
  expect(JoinForm.safeParse({ ...whole, name: '   ' }).success).toBe(false)
  expect(JoinForm.safeParse({ ...whole, name: 'x'.repeat(41) }).success).toBe(false)
})
