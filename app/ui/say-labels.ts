interface Labels {
  readonly contains: readonly string[]
  readonly mayContain: readonly string[]
  readonly notStated: readonly string[]
  readonly unread: readonly string[]
}

/** What the labels of a glass say, one line each. Nothing is called absent while a label is unread or does not say. */
export function sayLabels({ contains, mayContain, notStated, unread }: Labels): readonly string[] {
  const said = [
    ...line('contains', contains),
    ...line('may contain', mayContain),
    ...line('not stated', notStated),
    ...line('labels not read', unread),
  ]
  return said.length > 0 ? said : ['every label read, none names anything on the list']
}

const line = (words: string, names: readonly string[]) => (names.length > 0 ? [`${words}: ${names.join(', ')}`] : [])
