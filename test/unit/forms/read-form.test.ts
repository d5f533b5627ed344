import { describe, expect, test } from 'vitest'
import { AcceptInviteForm, ChangePasswordForm } from '@/lib/forms/account-form'
import { TickForm } from '@/lib/forms/panel-form'
import { readForm } from '@/lib/forms/read-form'
import { TrialForm } from '@/lib/forms/trial-form'

function sent(...pairs: readonly (readonly [string, string])[]): FormData {
  const form = new FormData()
  for (const [name, value] of pairs) form.append(name, value)
  return form
}

const refusedWhole = { ok: false, answer: { error: { '': [expect.stringContaining('could not be read')] } } }

describe('names that no page of ours sends', () => {
  test.each([
    ['a row number that makes a list of millions', 'lines[4000000].amount'],
    ['one beyond what a list can hold', 'lines[99999999999].amount'],
    ['one that looks like the framework’s own', '$ACTION_1[4000000]'],
    ['the same deeper down', 'lines[0].parts[5000000]'],
    ['a name without an end', `a${'.a'.repeat(20_000)}`],
  ])('%s is refused before a list is built', (_, name) => {
    expect(readForm(sent([name, '1']), TrialForm)).toMatchObject(refusedWhole)
    expect(readForm(sent([name.replace('lines', 'email'), '1']), AcceptInviteForm)).toMatchObject(refusedWhole)
  })

  test('thousands of fields are refused', () => {
    const many = Array.from({ length: 2001 }, (_, at) => [`servings[${at % 6}]`, 'x'] as const)
    expect(readForm(sent(...many), TickForm)).toMatchObject(refusedWhole)
  })

  test('an order to the form library to build rows is refused', () => {
    const order = JSON.stringify({ type: 'update', payload: { name: 'lines', index: 4_000_000, value: 1 } })
    expect(readForm(sent(['name', 'x'], ['__intent__', order]), TrialForm)).toMatchObject(refusedWhole)
  })

  test('a name that would reach into every object changes nothing', () => {
    readForm(sent(['__proto__.polluted', 'yes'], ['constructor.prototype.polluted', 'yes']), AcceptInviteForm)
    expect(Object.prototype).not.toHaveProperty('polluted')
  })
})

test('a long sheet is read', () => {
  const lines = Array.from({ length: 60 }, (_, at) => [
    [`lines[${at}].part`, 'ingredient:x'] as const,
    [`lines[${at}].amount`, '12,5'] as const,
  ])
  const read = readForm(sent(['name', '30 g syrup'], ['method', 'espresso'], ...lines.flat()), TrialForm)
  expect(read).toMatchObject({ ok: true, value: { name: '30 g syrup' } })
})

test('a password never travels back, neither with a problem nor with a refusal', () => {
  const typed = sent(['currentPassword', 'twelve grey gulls'], ['password', 'short'])
  const wrong = readForm(typed, ChangePasswordForm)
  expect(wrong.ok).toBe(false)
  expect(JSON.stringify(wrong)).not.toMatch(/gulls|"short"/)
  const good = readForm(sent(['currentPassword', 'grey gulls'], ['password', 'seven blue ropes']), ChangePasswordForm)
  if (!good.ok) throw new Error('should be read')
  expect(JSON.stringify(good.refuse('currentPassword', 'No.'))).not.toMatch(/gulls|ropes/)
})
