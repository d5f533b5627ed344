import { expect, test } from 'vitest'
import { sayLabels } from '@/app/ui/say-labels'

const nothing = { contains: [], mayContain: [], notStated: [], unread: [] }

// Our own rule: absence is never inferred from silence. Written out by hand.
test('nothing is called absent while a label may still name it', () => {
  expect(sayLabels({ ...nothing, mayContain: ['Tree nuts'] })).toEqual(['may contain: Tree nuts'])
  expect(sayLabels({ ...nothing, notStated: ['Milk'] })).toEqual(['not stated: Milk'])
  expect(sayLabels({ ...nothing, unread: ['Oat drink'] })).toEqual(['labels not read: Oat drink'])
})

test('each thing has its line, what is certain first', () => {
  expect(
    sayLabels({ contains: ['Milk', 'Soya'], mayContain: ['Tree nuts'], notStated: [], unread: ['Syrup'] }),
  ).toEqual(['contains: Milk, Soya', 'may contain: Tree nuts', 'labels not read: Syrup'])
})

test('only where every label was read and none names anything, that is said', () => {
  expect(sayLabels(nothing)).toEqual(['every label read, none names anything on the list'])
})
