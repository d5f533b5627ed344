/** What a form starts with, or holds: texts, and lists or groups of them. */
export type FormValues = {
  readonly [name: string]: string | null | undefined | FormValues | readonly (string | FormValues | null | undefined)[]
}

/** One field, or one list as a whole, in which what was typed and what is stored differ. */
export interface Difference {
  /** the name of the field; of a list of rows that has other rows now, the name of the list */
  readonly path: string
  readonly typed: readonly string[]
  readonly stored: readonly string[]
}

/** What a form was saved over meanwhile. */
export interface SavedElsewhere {
  /** the mark of what is stored: who saves with it has seen it */
  readonly opened: string
  readonly stored: FormValues
  readonly differences: readonly Difference[]
}

/** Fields that belong to the page, not to the person. */
const pageOwn = new Set(['opened', 'currency', 'place', 'id', 'densityFor'])

/** A field that says something only together with one the page keeps beside it. */
const companions: Readonly<Record<string, string>> = { density: 'densityFor' }

/** A row is one when any of these says something: a unit or a role alone is a row nobody has filled. */
const saying = ['id', 'part', 'newName', 'amount', 'text']

type Value = FormValues[string]

const isGroup = (value: unknown): value is FormValues =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const isList = (value: Value): value is readonly (string | FormValues | null | undefined)[] => Array.isArray(value)

/** Is it a list of rows, each a group of fields? A list of texts is one field with several boxes. */
const isRows = (value: Value): value is readonly (FormValues | null | undefined)[] =>
  isList(value) && value.some(isGroup)

const saysSomething = (row: FormValues) => saying.some((name) => Boolean(row[name]))

/** The rows of a list in the order the person gave them, without gaps and without rows nobody has filled. */
function rowsOf(list: readonly (string | FormValues | null | undefined)[]): readonly FormValues[] {
  return list
    .flatMap((row, at) => (isGroup(row) && saysSomething(row) ? [{ row, at: Number(row['place'] ?? at) }] : []))
    .toSorted((a, b) => a.at - b.at)
    .map(({ row: { place: _place, ...row } }) => row)
}

/** Values as a page would show them anew: rows numbered as they stand. */
export function settled(values: FormValues): FormValues {
  return Object.fromEntries(
    Object.entries(values)
      .filter(([name]) => !name.startsWith('$'))
      .map(([name, value]) => [name, isRows(value) ? rowsOf(value) : value]),
  )
}

const textsOf = (value: Value): readonly string[] =>
  (isList(value) ? value : [value]).flatMap((one) => (typeof one === 'string' && one !== '' ? [one] : []))

const same = (a: readonly string[], b: readonly string[]) =>
  a.length === b.length && a.toSorted().join('\n') === b.toSorted().join('\n')

/** A row as one reads it: what it is, how much, in which unit. */
const rowWords = (row: FormValues) =>
  ['part', 'newName', 'text', 'amount', 'unit', 'minutes', 'seconds'].flatMap((name) => textsOf(row[name])).join(' ')

/** Where do two fillings of one form differ? Both settled; paths are names of fields. */
export function differencesOf(typed: FormValues, stored: FormValues, within = ''): readonly Difference[] {
  const names = [...new Set([...Object.keys(typed), ...Object.keys(stored)])].filter((name) => !pageOwn.has(name))
  return names.flatMap((name): readonly Difference[] => {
    const path = within === '' ? name : `${within}.${name}`
    const [mine, theirs] = [typed[name], stored[name]]
    if (isRows(mine) || isRows(theirs)) return rowDifferences(path, rowsIn(mine), rowsIn(theirs))
    if (isGroup(mine) || isGroup(theirs))
      return differencesOf(isGroup(mine) ? mine : {}, isGroup(theirs) ? theirs : {}, path)
    const [a, b] = [textsOf(mine), textsOf(theirs)]
    return same(a, b) ? [] : [{ path, typed: a, stored: b }]
  })
}

const rowsIn = (value: Value): readonly FormValues[] => (isList(value) ? value.filter(isGroup) : [])

function rowDifferences(
  path: string,
  mine: readonly FormValues[],
  theirs: readonly FormValues[],
): readonly Difference[] {
  if (mine.length !== theirs.length) return [{ path, typed: mine.map(rowWords), stored: theirs.map(rowWords) }]
  return mine.flatMap((row, at) => differencesOf(row, theirs[at] ?? {}, `${path}[${at}]`))
}

/** The steps of a field's name: "lines[2].amount" → lines, 2, amount. */
const stepsOf = (path: string): readonly string[] => path.replace(/\[(\d+)\]/g, '.$1').split('.')

/** Values with one field, or one list, taken from other values. */
export function withFieldOf(values: FormValues, from: FormValues, path: string): FormValues {
  const steps = stepsOf(path)
  const taken = put(values, from, steps)
  const beside = companions[steps.at(-1) ?? '']
  return (beside ? put(taken, from, [...steps.slice(0, -1), beside]) : taken) as FormValues
}

function put(into: unknown, from: unknown, [step = '', ...rest]: readonly string[]): unknown {
  const value = rest.length > 0 ? put(at(into, step), at(from, step), rest) : at(from, step)
  if (Array.isArray(into)) return into.map((one: unknown, place) => (place === Number(step) ? value : one))
  return { ...(isGroup(into) ? into : {}), [step]: value }
}

const at = (value: unknown, step: string): unknown =>
  Array.isArray(value) ? (value as unknown[])[Number(step)] : isGroup(value) ? value[step] : undefined
