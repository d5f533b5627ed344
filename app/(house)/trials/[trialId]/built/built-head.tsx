import type { BuiltSheet } from '@/lib/tasks/trial/read-built'
import { ButtonLink } from '@/app/ui/button'
import { Notice } from '@/app/ui/notice'
import { sayTakeRefusal } from './say-built'

export function BuiltActs({ sheet: { trial }, writes }: { sheet: BuiltSheet; writes: boolean }) {
  return (
    <>
      <ButtonLink href={`/trials/${trial.id}/scale`}>Beside the scale</ButtonLink>
      {writes && trial.isFrozen && (
        <ButtonLink look="plain" href={`/trials/${trial.id}/vary`}>
          Make another from it
        </ButtonLink>
      )}
    </>
  )
}

/** What came of making weights the trial's own, as the address says it. */
export function TakenNotice({ taken, refused }: { taken: string | undefined; refused: string | undefined }) {
  const refusal = Object.entries(sayTakeRefusal).find(([reason]) => reason === refused)?.[1]
  if (refusal)
    return (
      <Notice look="caution" live>
        {refusal}
      </Notice>
    )
  if (!taken || !/^\d+$/.test(taken)) return null
  return (
    <Notice live>
      {taken === '1' ? 'One line has' : `${taken} lines have`} the weight of that building now, for one glass.
    </Notice>
  )
}

export function FrozenWords() {
  return (
    <p className="max-w-prose text-soft">
      This trial is frozen: what it was made with stays. To go on with the weights of a building, make another trial
      from it.
    </p>
  )
}
