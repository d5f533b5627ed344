import { expect, test } from 'vitest'
import { findUnpoured } from '@/lib/panel/unpoured'

const then = new Date(0)
const cup = (more: { name: string; poured?: boolean; seen?: boolean; hasScore?: boolean }) => ({
  name: more.name,
  pouredAt: more.poured ? then : null,
  codeSeenAt: more.seen ? then : null,
  hasScore: more.hasScore ?? true,
})
const found = (...cups: ReturnType<typeof cup>[]) => findUnpoured(cups)?.map(({ name }) => name)

test('a score on a cup that was neither ticked nor confirmed is marked, and no other', () => {
  const ticked = cup({ name: 'ticked', poured: true })
  const confirmed = cup({ name: 'confirmed', seen: true })
  const untouched = cup({ name: 'untouched', hasScore: false })
  expect(found(ticked, confirmed, untouched)).toEqual([])
  expect(found(ticked, confirmed, untouched, cup({ name: 'out of nowhere' }))).toEqual(['out of nowhere'])
})

test('where nobody ticked any cup it cannot be told', () => {
  expect(findUnpoured([cup({ name: 'one' }), cup({ name: 'confirmed', seen: true })])).toBeNull()
  expect(findUnpoured([])).toBeNull()
})
