import { AccountFields } from '@/app/ui/account-fields'
import { ActForm } from '@/app/ui/act-form'
import { allergenLists } from '@/app/ui/allergen-lists'
import { ChoiceField, SelectField, TextField } from '@/app/ui/field'
import { setUpAction } from './actions'

export function SetUpForm({ token }: { token: string }) {
  return (
    <ActForm
      id="set-up"
      action={setUpAction.bind(null, token)}
      defaults={{ currency: 'EUR', allergenList: 'eu', start: 'empty' }}
      keep="set-up"
      submit="Set up"
    >
      <AccountFields />
      <TextField name="cafeName" label="Name of the café" autoComplete="organization" required />
      <TextField name="currency" label="Currency" required help="Three letters: EUR, USD, PHP." />
      <SelectField name="allergenList" label="Which law’s list of allergens?" choices={allergenLists} />
      <ChoiceField
        name="start"
        label="How to start"
        choices={[
          { value: 'empty', words: 'Empty', help: 'Only a starter set of ingredients with published figures.' },
          {
            value: 'demo',
            words: 'With the demo café',
            help: 'Invented recipes, panels and scores to look around in, marked as demo.',
          },
        ]}
      />
    </ActForm>
  )
}
