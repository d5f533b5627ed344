const folded = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()

/**
 * Does a text hold everything that somebody looks for?
 *
 *     every word typed stands somewhere in it, in any order; capitals and accents do not matter ("creme" finds "Crème")
 *
 * @returns a question to put to any number of texts; to nothing typed every text says no
 */
export function holdsWords(typed: string): (text: string) => boolean {
  const words = folded(typed).split(/\s+/).filter(Boolean)
  return (text) => {
    const inside = folded(text)
    return words.length > 0 && words.every((word) => inside.includes(word))
  }
}
