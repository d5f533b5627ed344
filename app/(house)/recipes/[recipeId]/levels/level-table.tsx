import type { LevelSheet } from '@/lib/tasks/recipe/read-cost-levels'
import { ActButton } from '@/app/ui/act-button'
import { Button } from '@/app/ui/button'
import { sayFigure } from '@/app/ui/figure'
import { Notice } from '@/app/ui/notice'
import { ScrollTable } from '@/app/ui/scroll-table'
import { tastedAction } from './actions'

export function sayLevels({ trial, levels }: LevelSheet): string {
  if (!trial) return 'There is no trial to cost yet.'
  const tasted = levels.find((level) => level.tasted)
  return `Trial ${trial.number}, ${trial.name}, with today’s prices. ${tasted ? `Tasted at the level “${tasted.name}”.` : 'No level is marked as the one that was tasted.'}`
}

export function TrialPick({ sheet, recipeId }: { sheet: LevelSheet; recipeId: string }) {
  return (
    <form action={`/recipes/${recipeId}/levels`} className="flex flex-wrap items-end gap-3">
      <label className="grid gap-1 font-semibold">
        Trial
        <select
          name="trial"
          defaultValue={sheet.trial?.id}
          className="min-h-11 rounded border border-edge bg-raised px-3 font-normal"
        >
          {sheet.trials.map((trial) => (
            <option key={trial.id} value={trial.id}>
              {trial.number}. {trial.name}
            </option>
          ))}
        </select>
      </label>
      <Button type="submit" look="plain">
        Show
      </Button>
    </form>
  )
}

/** The levels side by side: each line, and what the glass comes to. */
export function LevelTable({
  sheet,
  recipeId,
  currency,
  writes,
}: {
  sheet: LevelSheet
  recipeId: string
  currency: string
  writes: boolean
}) {
  const { levels, trial, lineNames } = sheet
  const cell = (level: LevelSheet['levels'][number], place: number) => {
    const line = level.lines?.[place]
    return (
      <span key={level.id}>
        {line ? sayFigure(line.cost) : ''}
        {line && line.name !== lineNames[place]?.name && <span className="block text-s text-soft">{line.name}</span>}
      </span>
    )
  }
  const total = (words: string, pick: (level: LevelSheet['levels'][number]) => string) =>
    [
      words,
      <strong key="words">{words}</strong>,
      ...levels.map((level) => <strong key={level.id}>{pick(level)}</strong>),
    ] as const
  return (
    <div className="grid gap-4">
      <ScrollTable
        label="Cost levels"
        heads={[`In ${currency}`, ...levels.map((level) => `${level.name}${level.tasted ? ' (tasted)' : ''}`)]}
      >
        {[
          ...lineNames.map(
            (line, place) => [`${place}`, line.name, ...levels.map((level) => cell(level, place))] as const,
          ),
          total('A glass', (level) => (level.cost ? sayFigure(level.cost.perGlass) : '')),
          total('Share of cost', (level) => (level.cost ? sayFigure(level.cost.costShare, 1) : '')),
          total('Left of a glass', (level) => (level.cost ? sayFigure(level.cost.contribution) : '')),
        ]}
      </ScrollTable>
      {levels.some((level) => level.warning) && (
        <Notice look="caution">{levels.flatMap((level) => level.warning ?? []).join(' ')}</Notice>
      )}
      {writes && trial && sheet.settled === null && (
        <div className="flex flex-wrap gap-3">
          {levels
            .filter((level) => !level.tasted)
            .map((level) => (
              <ActButton
                key={level.id}
                look="plain"
                words={`“${level.name}” is what was tasted`}
                action={tastedAction.bind(null, recipeId, trial.id, level.id)}
              />
            ))}
        </div>
      )}
    </div>
  )
}
