import type { LevelSheet } from '@/lib/tasks/recipe/read-cost-levels'

/** What a level uses instead on each line of the trial, as its form fields hold it. */
export function alternativesAsTyped({ trial, chosen }: LevelSheet, levelId: string) {
  return {
    lines: (trial?.lines ?? []).map((line) => ({ id: line.id, part: chosen.get(`${levelId} ${line.id}`) ?? '' })),
  }
}
