/**
 * Does the place at which a cup was tasted tell which trial it was, so that no analysis can part the two?
 *
 *     some trial stands at one place on every tray, and nothing else ever stands there
 *
 * @param tasted  the servings of every tray that was tasted: its trial, and its place from 1
 *
 * Source   our own rule; two trials of which one was poured twice and kept apart were served so by the first version
 * Checked  test/unit/panel/place-and-cup.test.ts
 * Limits   Says nothing of one tray alone, where it is always so.
 */
export function placeTellsCup(tasted: readonly { readonly trialId: string; readonly position: number }[]): boolean {
  const trialsAt = new Map<number, Set<string>>()
  const placesOf = new Map<string, Set<number>>()
  for (const { trialId, position } of tasted) {
    trialsAt.set(position, (trialsAt.get(position) ?? new Set()).add(trialId))
    placesOf.set(trialId, (placesOf.get(trialId) ?? new Set()).add(position))
  }
  const trays = tasted.filter(({ position }) => position === 1).length
  if (trays < 2) return false
  return [...placesOf.values()].some((places) => places.size === 1 && trialsAt.get([...places][0] ?? 0)?.size === 1)
}
