import { Button, ButtonLink } from '@/app/ui/button'
import { archivePreparationAction } from '../actions'

/** @param hasFormula  how it is made stands written */
export function PreparationActs({
  here,
  preparation: { id, archivedAt },
  hasFormula,
}: {
  here: string
  preparation: { readonly id: string; readonly archivedAt: Date | null }
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
      <form action={archivePreparationAction.bind(null, id, archivedAt === null)}>
        <Button type="submit" look="quiet">
          {archivedAt ? 'Take up again' : 'Put aside'}
        </Button>
      </form>
    </>
  )
}
