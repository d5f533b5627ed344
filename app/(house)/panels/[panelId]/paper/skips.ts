/** Why a cup, or cups that are answered together, have no answer on a sheet. */
export const SKIPS = [
  { value: 'not-for-me', words: 'not for me' },
  { value: 'spilt-or-missing', words: 'spilt or missing' },
  { value: 'tastes-spoiled', words: 'tasted spoiled' },
  { value: 'rather-not', words: 'rather not say' },
]
