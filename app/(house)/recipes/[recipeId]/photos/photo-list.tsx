import type { RecipePhotos } from '@/lib/tasks/photo/read-photos'
import { Button } from '@/app/ui/button'
import { Moment } from '@/app/ui/moment'
import { takePhotoOutAction } from './actions'

export function PhotoList({ found, zone, writes }: { found: RecipePhotos; zone: string; writes: boolean }) {
  return (
    <ul className="grid gap-6 sm:grid-cols-2">
      {found.photos.map((photo) => {
        const of = photo.trial ? `Trial ${photo.trial.number}, ${photo.trial.name}` : found.recipe.name
        return (
          <li key={photo.id} className="grid content-start gap-2">
            <picture>
              <img
                src={`/photos/${photo.id}`}
                alt={photo.caption ?? of}
                width={photo.width}
                height={photo.height}
                loading="lazy"
                className="h-auto max-w-full rounded border border-line"
              />
            </picture>
            {photo.caption && <p>{photo.caption}</p>}
            <p className="text-s text-soft">
              {of}. {photo.by}, <Moment at={photo.createdAt} zone={zone} />
            </p>
            {writes && (
              <form action={takePhotoOutAction.bind(null, found.recipe.id, photo.id)} className="screen-only">
                <Button type="submit" look="quiet">
                  Take it out<span className="sr-only">: {photo.caption ?? of}</span>
                </Button>
              </form>
            )}
          </li>
        )
      })}
    </ul>
  )
}
