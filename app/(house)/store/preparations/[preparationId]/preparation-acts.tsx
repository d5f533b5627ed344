import { Button, ButtonLink } from '@/app/ui/button'
import { archivePreparationAction } from '../actions'

/** @param aside  it was put aside */
export function PreparationActs({
  here,
  preparationId,
  aside,
}: {
  here: string
  preparationId: string
  aside: boolean
}) {
  return (
    <>
      <ButtonLink href={`${here}/batches/new`}>Make a batch</ButtonLink>
      <ButtonLink look="plain" href={`${here}/batches/new?from=last`}>
        As the last one
      </ButtonLink>
      <ButtonLink look="plain" href={`${here}/edit`}>
        Change
      </ButtonLink>
      <form action={archivePreparationAction.bind(null, preparationId, !aside)}>
        <Button type="submit" look="quiet">
          {aside ? 'Take up again' : 'Put aside'}
        </Button>
      </form>
    </>
  )
}
