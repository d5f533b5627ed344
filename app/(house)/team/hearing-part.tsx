import { ActButton } from '@/app/ui/act-button'
import { chooseHearingAction } from './actions'

/** Whether sheets for home makers are given out at all. */
export function HearingPart({ hearsBack }: { hearsBack: boolean }) {
  return (
    <div className="grid max-w-prose gap-3">
      <p>
        {hearsBack
          ? 'Sheets for making a drink at home are given out, on each recipe’s page under “From home”, and what comes back is read there: beside what blind panels found, never counted with it.'
          : 'No sheets for making a drink at home are given out. What came back before stays to be read.'}
      </p>
      <p>Whoever has a sheet has the recipe: amounts, steps and house syrups; no prices, no suppliers, no panels.</p>
      <ActButton
        action={chooseHearingAction.bind(null, hearsBack ? 'off' : 'on')}
        words={hearsBack ? 'Give no more sheets out' : 'Give sheets out'}
        look="plain"
      />
    </div>
  )
}
