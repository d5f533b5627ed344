import { readFileSync } from 'node:fs'
import Ajv2020 from 'ajv/dist/2020'
import { expect, test } from 'vitest'
import { trialFileSchema } from '@/lib/forms/trial-file'

const schema: object = JSON.parse(readFileSync('lib/forms/trial-file.schema.json', 'utf8'))
const example = () => JSON.parse(readFileSync('lib/commands/example-trial.json', 'utf8'))
const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema)

test('the schema kept in the repository is the one the code checks with', () => {
  expect(schema).toEqual(JSON.parse(JSON.stringify(trialFileSchema())))
})

test('the example in the manual is valid by the schema', () => {
  expect(validate(example())).toBe(true)
})

test.each([
  ['another kind of file', (file: ReturnType<typeof example>) => (file.kind = 'recipe')],
  ['a later version', (file) => (file.version = 2)],
  ['no line', (file) => (file.lines = [])],
  ['an amount of zero', (file) => (file.lines[0].targetGrams = 0)],
  ['a field nobody knows', (file) => (file.lines[0].grammes = 5)],
  ['an amount in words', (file) => (file.lines[0].targetGrams = 'a splash')],
  ['Brix over 100', (file) => (file.preparations['date-syrup'].brixMeasured = 101)],
  ['a unit that could be two', (file) => (file.lines[3].typed.unit = 'oz')],
  ['301 lines', (file) => (file.lines = Array(301).fill(file.lines[0]))],
  [
    '101 preparations',
    (file) => {
      for (let at = 0; at < 101; at++) file.preparations[`other-${at}`] = file.preparations['date-syrup']
    },
  ],
])('%s is refused by the schema', (_what, spoil) => {
  const file = example()
  spoil(file)
  expect(validate(file)).toBe(false)
})
