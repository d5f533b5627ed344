import { describe, expect, test } from 'vitest'
import { AcceptInviteForm, ChangePasswordForm, ResetForm, SetUpForm } from '@/lib/forms/account-form'
import { TickForm } from '@/lib/forms/panel-form'
import { PaperForm } from '@/lib/forms/paper-form'
import { readField, readForm } from '@/lib/forms/read-form'
import { TrialForm } from '@/lib/forms/trial-form'

function sent(...pairs: readonly (readonly [string, string])[]): FormData {
  const form = new FormData()
  for (const [name, value] of pairs) form.append(name, value)
  return form
}

const refusedWhole = { ok: false, answer: { error: { '': [expect.stringContaining('could not be read')] } } }

/** How many values and rows stand in what was read or is sent back: what the small request made us build. */
function built(thing: unknown): number {
  if (Array.isArray(thing)) return thing.reduce<number>((sum, one) => sum + built(one), thing.length)
  if (typeof thing !== 'object' || thing === null) return 0
  return Object.values(thing).reduce<number>((sum, one) => sum + 1 + built(one), 0)
}

/** Reads a form as the doors without an account do, and counts what came of it. */
function rowsFor(form: FormData): number[] {
  return [AcceptInviteForm, SetUpForm, ResetForm].map((schema) => {
    const read = readForm(form, schema)
    expect(read).toMatchObject(refusedWhole)
    return built(read)
  })
}

const order = (type: string, payload: object) => ['__intent__', JSON.stringify({ type, payload })] as const
const deep = (depth: number, at = 999) => `a${`[${at}]`.repeat(depth)}`

describe('a small request cannot make a large list', () => {
  // The requests of the attack, one by one, and their nearest kin: at most a few thousand rows may ever be built.
  test.each<[string, (readonly [string, string])[]]>([
    ['a row number of thousands of millions', [['lines[4000000000].a', 'x']]],
    ['a row number of 100 000 in an order to the form library', [order('update', { name: 'a[100000].b', value: 'x' })]],
    ['the same of twenty millions', [order('update', { name: 'a[20000000].b', value: 'x' })]],
    ['an order that names its row apart', [order('update', { name: 'a', index: 20_000_000, value: 'x' })]],
    ['an order to insert', [order('insert', { name: 'a[20000000].b', defaultValue: 'x' })]],
    ['an order to move rows', [order('reorder', { name: 'a', from: 0, to: 4_000_000_000 })]],
    ['an order that is no JSON', [['__intent__', '{']]],
    ['an order a million brackets deep', [['__intent__', '['.repeat(1_000_000)]]],
    ['a state a million brackets deep', [['__state__', '['.repeat(1_000_000)]]],
    ['a state at all', [['__state__', '{"validated":{},"key":{}}']]],
    ['20 fields, each 18 lists deep', Array.from({ length: 20 }, (_, at) => [`a${at}${deep(17)}`, 'x'] as const)],
    ['20 fields, each two lists of 999', Array.from({ length: 20 }, (_, at) => [`a[${at}].b[999]`, 'x'] as const)],
    ['20 lists of 999', Array.from({ length: 20 }, (_, at) => [`a${at}[999]`, 'x'] as const)],
    ['three lists deep', [['a[1][1][1]', 'x']]],
    [
      'a list told its length',
      [
        ['a[0]', 'x'],
        ['a.length', '40000'],
      ],
    ],
    [
      'a row number behind a point',
      [
        ['a[0]', 'x'],
        ['a.40000', 'x'],
      ],
    ],
    ['a row number with blanks', [['a[ 40000 ]', 'x']]],
    ['lists without a number', [['a[][]', 'x']]],
    ['an unclosed bracket', [['a[4', 'x']]],
    ['a name a thousand steps deep', [[`a${'.a'.repeat(1000)}`, 'x']]],
  ])('%s', (_, pairs) => {
    for (const rows of rowsFor(sent(...pairs))) expect(rows).toBeLessThan(3000)
  })

  test('thousands of fields are refused, and no more than a page may hold comes back', () => {
    const many = Array.from({ length: 20_000 }, (_, at) => [`servings[${at % 6}]`, 'x'] as const)
    const read = readForm(sent(...many), TickForm)
    expect(read).toMatchObject(refusedWhole)
    expect(built(read)).toBeLessThan(10_000)
  })

  test('what was typed in the fields that can be read comes back, a password never', () => {
    const read = readForm(
      sent(['name', 'Wren'], ['password', 'twelve grey gulls'], ['lines[0].amount', '12'], ['lines[9999].amount', '1']),
      AcceptInviteForm,
    )
    expect(read).toMatchObject({
      ok: false,
      answer: { status: 'error', initialValue: { name: 'Wren', lines: [{ amount: '12' }] } },
    })
    expect(JSON.stringify(read)).not.toContain('gulls')
  })

  test('what the framework adds without script is passed over', () => {
    const read = readForm(
      sent(
        ['$ACTION_REF_1', ''],
        ['$ACTION_1:0', '{"id":"7f","bound":"$@1"}'],
        ['$ACTION_KEY', 'k1'],
        ['poured', 'yes'],
        ['servings[0]', 's'],
      ),
      TickForm,
    )
    expect(read).toMatchObject({ ok: true, value: { poured: 'yes', servings: ['s'] } })
  })

  test('a name that would reach into every object changes nothing', () => {
    readForm(sent(['__proto__.polluted', 'yes'], ['constructor.prototype.polluted', 'yes']), AcceptInviteForm)
    expect(Object.prototype).not.toHaveProperty('polluted')
  })
})

test('the longest sheet our pages can send is read: 300 lines of fourteen fields, their rows renumbered by moves', () => {
  const what = ['role', 'part', 'newName', 'newKind', 'newForm', 'amount', 'unit', 'density', 'densityFor']
  const fields = [...what, 'weighed', 'tolerance', 'temperature', 'note']
  const value = (field: string) =>
    ({ role: 'other', part: 'ingredient:x', unit: 'g', newName: 'x', newKind: 'other', newForm: 'liquid', note: 'x' })[
      field
    ] ?? '1'
  const lines = Array.from({ length: 300 }, (_, at) => [
    ...fields.map((field) => [`lines[${at + 400}].${field}`, value(field)] as const),
    [`lines[${at + 400}].place`, String(at)] as const,
  ])
  const read = readForm(sent(['name', '30 g syrup'], ['method', 'espresso'], ...lines.flat()), TrialForm)
  expect(read).toMatchObject({ ok: true })
})

test('a paper form of six cups and twelve aspects is read', () => {
  const cups = Array.from({ length: 6 }, (_, at) => [
    [`cups[${at}].code`, `10${at}`] as const,
    ...Array.from({ length: 13 }, (_, place) => [`cups[${at}].answers[${place}]`, '7'] as const),
  ])
  const form = sent(
    ['seat', '4'],
    ['name', 'Wren'],
    ['unaffected', 'yes'],
    ['consent', 'yes'],
    ['unseen', 'yes'],
    ...cups.flat(),
  )
  expect(readForm(form, PaperForm)).toMatchObject({ ok: true })
})

test('on paper a word without a tick does not apply, once the cup was scored; of a cup that was not, nothing is known', () => {
  const head = [
    ['seat', '4'],
    ['name', 'Wren'],
    ['unaffected', 'yes'],
    ['consent', 'yes'],
    ['unseen', 'yes'],
  ] as const
  const cups = [
    ['cups[0].code', '101'],
    ['cups[0].answers[0]', '7'],
    ['cups[0].ticks[1].words', 'none'],
    ['cups[0].ticks[1].words', '0'],
    ['cups[0].ticks[1].words', '2'],
    ['cups[1].code', '102'],
    ['cups[1].answers[0]', '5'],
    ['cups[1].ticks[1].words', 'none'],
    ['cups[2].code', '103'],
    ['cups[2].ticks[1].words', 'none'],
  ] as const
  const read = readForm(sent(...head, ...cups), PaperForm)
  expect(read.ok && read.value.cups.map(({ answers }) => answers)).toEqual([
    [7, 5],
    [5, 0],
    [null, null],
  ])
})

test.each([[{ a: { b: [] } }], ['words'], [null], [undefined], [7]])(
  'what is no form (%j) is answered like one that cannot be read',
  (sent) => {
    // what the network may put there, whatever the type says
    const read = readForm(sent as unknown as FormData, TickForm)
    expect(read).toMatchObject({ ok: false, answer: { error: { '': [expect.stringContaining('could not be read')] } } })
  },
)

test('one field is read as it was typed, and nothing of what is no form', () => {
  const form = new FormData()
  form.append('role', ' viewer')
  expect(readField(form, 'role')).toBe(' viewer')
  for (const other of ['words', 7, null, { get: () => 'viewer' }])
    expect(readField(other as unknown as FormData, 'role')).toBe('')
  expect(readField(form, 'else')).toBe('')
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
