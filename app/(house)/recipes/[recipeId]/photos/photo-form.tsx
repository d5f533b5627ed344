import type { RecipePhotos } from '@/lib/tasks/photo/read-photos'
import { Button } from '@/app/ui/button'
import { Section } from '@/app/ui/page-frame'
import { addPhotoAction } from './actions'
import { FittedFile } from './fitted-file'

const why: Readonly<Record<string, string>> = {
  missing: 'Choose a photo.',
  gone: 'This recipe, or this trial, is not there any more.',
  'too-many': 'Twelve photos of one thing are the most. Take one out first.',
  'too-large': 'This file is longer than 300 kB. Make it smaller, please.',
  'not-a-photo': 'This is neither a JPEG nor a WebP picture, whatever its name says.',
  broken: 'This file is cut off or damaged.',
  turned:
    'This picture lies on its side: it stands upright only by what the camera wrote beside it, which is taken off here. Turn it, save it, and choose it again.',
  'too-wide': 'One side has more than 6,000 pixels. Make it smaller, please.',
}

interface Asked {
  readonly refused?: string | undefined
  readonly caption?: string | undefined
  readonly trial?: string | undefined
}

export function PhotoForm({ found, asked }: { found: RecipePhotos; asked: Asked }) {
  const refused = asked.refused === undefined ? null : (why[asked.refused] ?? 'This could not be kept.')
  const box = 'min-h-11 w-full rounded border border-edge bg-raised px-3 py-2 font-normal'
  return (
    <Section title="Add a photo">
      <form action={addPhotoAction.bind(null, found.recipe.id)} className="grid max-w-xl gap-4">
        <FittedFile refused={refused} className={box} />
        <label className="grid gap-1 font-semibold">
          Of
          <select name="trial" defaultValue={asked.trial ?? ''} className={box}>
            <option value="">{found.recipe.name}</option>
            {found.trials.map((trial) => (
              <option key={trial.id} value={trial.id}>
                Trial {trial.number}, {trial.name}
              </option>
            ))}
          </select>
        </label>
        <label className="grid gap-1 font-semibold">
          What it shows
          <input name="caption" maxLength={200} defaultValue={asked.caption ?? ''} className={box} />
        </label>
        <div>
          <Button type="submit" look="plain">
            Add the photo
          </Button>
        </div>
      </form>
    </Section>
  )
}
