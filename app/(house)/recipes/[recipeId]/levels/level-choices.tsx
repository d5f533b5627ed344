import type { LevelSheet } from '@/lib/tasks/recipe/read-cost-levels'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField, SelectField } from '@/app/ui/field'
import { Fold, Section } from '@/app/ui/page-frame'
import { alternativesAction } from './actions'
import { alternativesAsTyped } from './alternatives-as-typed'

/** For each level, what it uses instead on each line; left alone, the line stays as in the trial. */
export function LevelChoices({ sheet, recipeId }: { sheet: LevelSheet; recipeId: string }) {
  const { trial, levels, settled, lineNames, parts, chosen } = sheet
  if (!trial || levels.length === 0) return null
  return (
    <Section title="What each level uses">
      <div className="grid gap-3">
        {settled !== null && (
          <p className="text-soft">The trial was poured at “{settled}”: what that level used stays.</p>
        )}
        {levels
          .filter((level) => level.name !== settled)
          .map((level) => (
            <Fold key={level.id} words={level.name}>
              <ActForm
                id={`level-${level.id}`}
                action={alternativesAction.bind(null, recipeId, trial.id, level.id)}
                opened={level.mark}
                defaults={alternativesAsTyped(sheet, level.id)}
                submit={`Save ${level.name}`}
                submitLook="plain"
                className="max-w-md"
              >
                {trial.lines.map((line, place) => (
                  <div key={line.id}>
                    <HiddenField name={`lines[${place}].id`} value={line.id} />
                    <SelectField
                      name={`lines[${place}].part`}
                      label={lineNames[place]?.name ?? 'Line'}
                      none="as in the trial"
                      choices={parts
                        .filter(
                          (part) =>
                            part.kind === lineNames[place]?.kind || part.ref === chosen.get(`${level.id} ${line.id}`),
                        )
                        .map((part) => ({ value: part.ref, words: part.name }))}
                    />
                  </div>
                ))}
              </ActForm>
            </Fold>
          ))}
      </div>
    </Section>
  )
}
