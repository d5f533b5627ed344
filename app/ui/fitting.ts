/** Without accents and capitals: "Creme" finds "Crème". */
const plainly = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()

/**
 * The choices whose words hold every word that was typed, each at the beginning of one of theirs; those that begin with what
 * was typed first, else in the order given.
 */
export function fitting<Choice extends { readonly words: string }>(
  choices: readonly Choice[],
  typed: string,
): readonly Choice[] {
  const wanted = plainly(typed).split(/\s+/).filter(Boolean)
  if (wanted.length === 0) return choices
  const whole = wanted.join(' ')
  const begins = (words: string) => (plainly(words).startsWith(whole) ? 0 : 1)
  return choices
    .filter(({ words }) => {
      const own = plainly(words).split(/[^\p{L}\p{N}.,%]+/u)
      return wanted.every((word) => own.some((one) => one.startsWith(word)))
    })
    .toSorted((a, b) => begins(a.words) - begins(b.words))
}
