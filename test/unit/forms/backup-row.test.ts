import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { readRowLine, rowLine } from '@/lib/forms/backup-row'

const columns = [
  { name: 'name', type: 'text' },
  { name: 'count', type: 'integer' },
  { name: 'share', type: 'real' },
]
const value = fc.oneof(
  fc.constant(null),
  fc.boolean(),
  fc.bigInt({ min: -(2n ** 63n), max: 2n ** 63n - 1n }),
  fc.double({ noNaN: true }).map((number) => number + 0), // no database keeps a minus before nothing
  fc.string({ unit: 'binary' }),
  fc.uint8Array(),
)
const plain = (values: readonly unknown[]) =>
  values.map((one) => (one instanceof Uint8Array ? `bytes ${Buffer.from(one).toString('hex')}` : one))

test('any row comes back as it was, each value of its kind', () => {
  const share = fc.oneof(
    fc.constant(null),
    fc.double({ noNaN: true }).map((number) => number + 0),
    fc.string(),
  )
  fc.assert(
    fc.property(fc.tuple(value, value, share), (row) => {
      const line = rowLine(columns, row)
      expect(line).not.toContain('\n')
      expect(plain(readRowLine(columns, line) ?? [])).toEqual(plain(row))
    }),
  )
})

test('plain values stand there plainly, what JSON cannot say names its kind', () => {
  const said = (one: Parameters<typeof rowLine>[1][number]) =>
    JSON.parse(rowLine([{ name: 'a', type: 'integer' }], [one])).a
  expect(said('007')).toBe('007')
  expect(said('')).toBe('')
  expect(said(7n)).toBe(7)
  expect(said(true)).toBe(true)
  expect(said(0.5)).toBe(0.5)
  expect(said(7)).toEqual({ real: '7' })
  expect(said(2n ** 53n)).toEqual({ integer: '9007199254740992' })
  expect(said(Buffer.from('abc'))).toEqual({ bytes: 'YWJj' }) // RFC 4648
})

test.each([
  ['no JSON', '{"name":'],
  ['no row', '["a",1,2]'],
  ['a column missing', '{"name":"a","count":1}'],
  ['a column too many', '{"name":"a","count":1,"share":2,"more":3}'],
  ['another column', '{"name":"a","count":1,"price":2}'],
  ['a value of no kind', '{"name":{"word":"a"},"count":1,"share":2}'],
  ['a list', '{"name":["a"],"count":1,"share":2}'],
  ['a number no database keeps', '{"name":"a","count":{"integer":"9223372036854775808"},"share":2}'],
])('%s is no row', (_what, line) => {
  expect(readRowLine(columns, line)).toBeNull()
})
