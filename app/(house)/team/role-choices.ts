export const roleChoices = [
  { value: 'developer', words: 'Developer: recipes, trials, panels' },
  { value: 'pourer', words: 'Pourer: lists and progress of an open panel, and the bar' },
  { value: 'bar', words: 'Bar: makes house recipes and their batches' },
  { value: 'viewer', words: 'Viewer: reads' },
  { value: 'owner', words: 'Owner: everything' },
] as const
