import { expect, test } from 'vitest'
import { askOf, designOf, findSetKind, panelKinds, roomOfQuestion, setKinds } from '@/lib/panel/kinds/kinds'

const asItStands = <One>(of: readonly One[]) => of

test('every kind but liking has its room, and a question of its own', () => {
  expect(Object.keys(setKinds)).toEqual(panelKinds.filter((kind) => kind !== 'liking'))
  const asked = Object.values(setKinds).map(({ asks }) => asks)
  expect(new Set(asked).size).toBe(asked.length)
  for (const kind of asked) expect(roomOfQuestion({ kind })).not.toBeNull()
})

test('liking, and a word that is no kind, have no room', () => {
  expect(findSetKind('liking')).toBeNull()
  expect(findSetKind('stars')).toBeNull()
  expect(designOf({ kind: 'liking', design: null })).toBeUndefined()
  expect(roomOfQuestion({ kind: 'liking-9' })).toBeNull()
})

test('a question is asked as its kind asks it, one about a cup as ever', () => {
  const options = '{"none":true}'
  expect(askOf({ name: 'Which', kind: 'choose', options }, asItStands)).toEqual({ kind: 'choose', none: true })
  expect(askOf({ name: 'Overall liking', kind: 'liking-9', options: null }, asItStands)).toEqual({ kind: 'liking' })
})
