import { expect, test } from 'vitest'
import { LIKING_HIGHEST, LIKING_LOWEST, LIKING_WORDS } from '@/lib/panel/liking'

test('nine steps, mirrored around "neither like nor dislike", as Peryam and Pilgrim (1957) worded them', () => {
  expect(LIKING_WORDS).toHaveLength(9)
  expect([LIKING_LOWEST, LIKING_HIGHEST]).toEqual([1, LIKING_WORDS.length])
  expect(LIKING_WORDS[4]).toBe('neither like nor dislike')
  for (let i = 0; i < 4; i++) expect(LIKING_WORDS[i]).toBe(`dis${LIKING_WORDS[8 - i]}`)
  expect(LIKING_WORDS[8]).toBe('like extremely')
})
