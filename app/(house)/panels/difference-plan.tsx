import { ChoiceField, SelectField, TextField, type Choice } from '@/app/ui/field'
import { methodNames, methodWords, type Protocol } from './say-difference'

const named = 'hidden group-has-[input[value=named]:checked]/plan:grid'

const methodOf = (value: Protocol) => ({ value, words: `${methodNames[value]}: ${methodWords[value]}` })

/** Of two cups that may not be told apart: what the panel is to show, what is asked, how often, and how it is hidden. */
export function DifferencePlan({ trials }: { readonly trials: readonly Choice[] }) {
  return (
    <div className="grid max-w-prose gap-5">
      <ChoiceField
        name="odd.aim"
        label="It is to show"
        choices={[
          {
            value: 'differ',
            words: 'That they can be told apart',
            help: 'Is the new batch another drink, to the tongue?',
          },
          {
            value: 'alike',
            words: 'That few can tell them apart',
            help: 'For a cheaper milk or a quicker brew. You say what few is. It takes more tasters, and one answer from each.',
          },
        ]}
      />
      <ChoiceField
        name="odd.asks"
        label="What they are asked"
        choices={[
          { value: 'any', words: 'Which one is different, whatever it is' },
          {
            value: 'named',
            words: 'Which one has more of something you name',
            help: 'Who knows what to look for finds a smaller difference; one that lies elsewhere is missed.',
          },
        ]}
      />
      <div className={`gap-5 sm:grid-cols-2 ${named}`}>
        <TextField
          name="odd.property"
          label="Tasters read: which one is …?"
          help="As one says it of two: sweeter, more bitter. It names no ingredient."
        />
        <SelectField name="odd.more" label="It should be" none="Choose" choices={trials} />
      </div>
      <SelectField
        name="odd.protocol"
        label="Method"
        none="As proposed, for this aim"
        choices={(['triangle', 'duo-trio', 'tetrad', 'two-afc', 'three-afc'] as const).map(methodOf)}
        help="What is proposed, and why, stands under “What it comes to”."
      />
      <div className="grid gap-5 sm:grid-cols-2">
        <TextField
          name="odd.share"
          label="Tasters who can really tell"
          unit="of 100"
          inputMode="numeric"
          help="To find a difference: the share it is to find. To show that few can tell: few is fewer than this."
        />
        <TextField
          name="odd.each"
          label="Answers from each taster"
          unit="each"
          inputMode="numeric"
          help="The same number from everyone, 1 to 3, each about cups of its own. To show that few can tell, 1: answers of one person hang together, and would make the panel look larger than it is. Of a property, 1 as well."
        />
      </div>
      <TextField
        name="odd.mask"
        label="How it is hidden"
        help="Only where you say below that something can be seen: black cups with lids, red light. Who can see which it is does not have to taste, so without this such a panel is refused."
      />
    </div>
  )
}
