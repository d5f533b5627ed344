/** What can be measured, in the order in which it is. */
const parts = ['stats', 'orders', 'drink', 'pages', 'polls', 'phones', 'taster-page', 'noticed', 'rehearsal'] as const
export type Part = (typeof parts)[number]

export type Choice =
  { readonly ok: true; readonly parts: ReadonlySet<Part> } | { readonly ok: false; readonly problem: string }

/** Which parts the words behind `npm run bench --` ask for: all of them, or `--only` some. */
export function chooseParts(words: readonly string[]): Choice {
  if (words.length === 0) return { ok: true, parts: new Set(parts) }
  const [flag, list] = words
  const isUsage = flag === '--only' && list !== undefined && words.length === 2
  if (!isUsage) return { ok: false, problem: `Use: npm run bench, or npm run bench -- --only ${parts.join(',')}` }
  const chosen = new Set<Part>()
  for (const name of list.split(',')) {
    const part = parts.find((one) => one === name)
    if (!part) return { ok: false, problem: `'${name}' is not a part; there are ${parts.join(', ')}` }
    chosen.add(part)
  }
  return { ok: true, parts: chosen }
}
