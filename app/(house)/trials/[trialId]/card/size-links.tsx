import { ButtonLink } from '@/app/ui/button'
import { cardSizes, type CardSize } from '@/app/ui/page-rule'

export function SizeLinks({ here, size }: { here: string; size: CardSize }) {
  return (Object.keys(cardSizes) as CardSize[])
    .filter((other) => other !== size)
    .map((other) => (
      <ButtonLink key={other} look="plain" href={`${here}?size=${other}`}>
        {cardSizes[other].words}
      </ButtonLink>
    ))
}
