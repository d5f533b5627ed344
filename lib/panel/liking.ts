/**
 * Which words stand for which number on the nine-point hedonic scale?
 *
 *     LIKING_WORDS[value − 1],   value from 1 (dislike extremely) to 9 (like extremely)
 *
 * Source   Peryam and Pilgrim (1957), "Hedonic scale method of measuring food preferences", Food Technology 11(9), 9–14
 *          (wording from memory, as every textbook of sensory evaluation prints it)
 * Checked  test/unit/panel/liking.test.ts
 * Limits   The steps are words in order; that they are equally far apart is an assumption of the analysis, not of the scale.
 */
export const LIKING_WORDS = Object.freeze([
  'dislike extremely',
  'dislike very much',
  'dislike moderately',
  'dislike slightly',
  'neither like nor dislike',
  'like slightly',
  'like moderately',
  'like very much',
  'like extremely',
] as const)

export const LIKING_LOWEST = 1
export const LIKING_HIGHEST = 9
