import { Button, ButtonLink } from '@/app/ui/button'
import { archivePreparationAction } from '../actions'

/** @param aside  it was put aside. @param hasFormula  how it is made stands written */
export function PreparationActs({
  here,
  preparationId,
  aside,
  hasFormula,
}: {
  here: string
  preparationId: string
  aside: boolean
  hasFormula: boolean
}) {
  return (
    <>
      <ButtonLink href={`${here}/batches/new${hasFormula ? '?from=formula' : ''}`}>Make a batch</ButtonLink>
      <ButtonLink look="plain" href={`${here}/batches/new?from=last`}>
        As the last one
      </ButtonLink>
      <ButtonLink look="plain" href={`${here}/formula`}>
        {hasFormula ? 'Change the formula' : 'Write its formula'}
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
