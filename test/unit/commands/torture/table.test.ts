import { expect, test } from 'vitest'
import { drawTable, isKept, sayVerdict, together, type Row } from '@/lib/commands/torture/table'

const sound = { acknowledged: 4, lost: 0, doubled: 0, unasked: 0, complaints: [] }
const row: Row = { what: 'pulled', times: 2, checked: sound, messages: 9, again: 1234, wait: 987, trouble: null }

test.each([
  ['kept', row],
  ['FAILED: 1 lost', { ...row, checked: { ...sound, lost: 1 } }],
  ['FAILED: 2 doubled', { ...row, checked: { ...sound, doubled: 2 } }],
  [
    'FAILED: 1 counted that were never acknowledged, row 7 missing from index',
    { ...row, checked: { ...sound, unasked: 1, complaints: ['row 7 missing from index'] } },
  ],
  ['FAILED: no score was acknowledged', { ...row, checked: { ...sound, acknowledged: 0 } }],
  ['FAILED: the house ended with 1', { ...row, trouble: { isFailure: true, words: 'the house ended with 1' } }],
  ['not done: it takes root', { ...row, checked: null, trouble: { isFailure: false, words: 'it takes root' } }],
])('%s', (verdict, one) => {
  expect(sayVerdict(one)).toBe(verdict)
  expect(isKept(one)).toBe(!verdict.startsWith('FAILED'))
})

test('the table has one line for each thing done', () => {
  expect(drawTable([row]).split('\n')).toEqual([
    '| what was done | times | acknowledged | lost | doubled | all again | longest wait | verdict |',
    '| ------------- | ----- | ------------ | ---- | ------- | --------- | ------------ | ------- |',
    '| pulled        | 2     | 9            | 0    | 0       | 1.2 s     | 1.0 s        | kept    |',
  ])
})

test('what was done to several houses is one row, in which nothing that went wrong is lost', () => {
  const lost = { ...row, wait: 5000, again: null, checked: { ...sound, lost: 1, complaints: ['torn page'] } }
  expect(together('pulled', [row, lost])).toEqual({
    ...row,
    times: 4,
    messages: 18,
    wait: 5000,
    checked: { acknowledged: 8, lost: 1, doubled: 0, unasked: 0, complaints: ['torn page'] },
  })
  const trouble = { isFailure: true, words: 'the house ended with 1' }
  expect(together('pulled', [row, { ...row, checked: null, trouble }]).trouble).toBe(trouble)
})
