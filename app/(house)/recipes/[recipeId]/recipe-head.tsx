import Link from 'next/link'
import { Button, ButtonLink } from '@/app/ui/button'
import { sayDay } from '@/app/ui/moment'
import { archiveRecipeAction } from '../actions'

interface House {
  readonly version: number
  readonly at: Date
  readonly trial: { readonly id: string; readonly number: number; readonly name: string }
}

export function HouseSentence({ house, zone, trials }: { house: House | null; zone: string; trials: number }) {
  if (!house) return trials === 0 ? 'Nothing has been made of it yet.' : 'No house recipe is settled yet.'
  return (
    <>
      House recipe {house.version} is{' '}
      <Link href={`/trials/${house.trial.id}`} prefetch={false}>
        trial {house.trial.number}, {house.trial.name}
      </Link>
      , since {sayDay(house.at, zone)}.
    </>
  )
}

export function RecipeActs({
  here,
  recipeId,
  house,
  trials,
  archived,
  writes,
}: {
  here: string
  recipeId: string
  house: boolean
  trials: number
  archived: boolean
  writes: boolean
}) {
  const next =
    trials === 0 ? (
      <ButtonLink href={`${here}/first-trial`}>Record the first trial</ButtonLink>
    ) : trials >= 2 ? (
      <ButtonLink href={`/panels/new?recipe=${recipeId}`}>Plan a panel</ButtonLink>
    ) : (
      <ButtonLink href={`${here}/first-trial`}>Record a second trial</ButtonLink>
    )
  return (
    <>
      {writes && !archived && next}
      <ButtonLink look="plain" href={`${here}/why`}>
        {house ? 'Why this one?' : 'History'}
      </ButtonLink>
      {writes && !house && trials > 0 && (
        <ButtonLink look="quiet" href={`${here}/adopt`}>
          It is on the menu already
        </ButtonLink>
      )}
      <ButtonLink look="quiet" href={`${here}/levels`}>
        Cost levels
      </ButtonLink>
      {writes && (
        <ButtonLink look="quiet" href={`${here}/import`}>
          Bring a trial file
        </ButtonLink>
      )}
      {writes && (
        <ButtonLink look="quiet" href={`${here}/money`}>
          Price and waste
        </ButtonLink>
      )}
      <ButtonLink look="quiet" href={`${here}/photos`}>
        Photos
      </ButtonLink>
      {writes && (
        <ButtonLink look="quiet" href={`${here}/edit`}>
          Rename or describe
        </ButtonLink>
      )}
      {writes && trials > 0 && (
        <ButtonLink look="quiet" href={`${here}/copy`}>
          Copy it
        </ButtonLink>
      )}
      {writes && (
        <form action={archiveRecipeAction.bind(null, recipeId, !archived)}>
          <Button type="submit" look="quiet">
            {archived ? 'Take up again' : 'Put aside'}
          </Button>
        </form>
      )}
    </>
  )
}
