import type { Metadata } from 'next'
import { canSetUp } from '@/lib/tasks/house/set-up-house'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Door } from '@/app/ui/door'
import { ChoiceField, SelectField, TextField } from '@/app/ui/field'
import { allergenLists } from '@/app/ui/allergen-lists'
import { setUpAction } from './actions'

export const metadata: Metadata = { title: 'Set up the house' }
export const dynamic = 'force-dynamic'

export default async function SetUpPage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params
  if (!(await canSetUp(theWorld(), token))) {
    return (
      <Door
        title="This set-up link is not open"
        words="It was used already, or a newer one was made. The start command prints the present one."
      />
    )
  }
  return (
    <Door title="Set up the house" words="You become its owner. Everybody else joins by your invitation.">
      <ActForm
        id="set-up"
        action={setUpAction.bind(null, token)}
        defaults={{ currency: 'EUR', allergenList: 'eu', start: 'demo' }}
        keep="set-up"
        submit="Set up"
      >
        <TextField name="name" label="Your name" autoComplete="name" required />
        <TextField
          name="email"
          label="Email"
          type="email"
          autoComplete="username"
          required
          help="To sign in. Nothing is ever sent there."
        />
        <TextField
          name="password"
          label="Password"
          type="password"
          autoComplete="new-password"
          required
          help="At least 10 characters."
        />
        <TextField name="cafeName" label="Name of the café" autoComplete="organization" required />
        <TextField name="currency" label="Currency" required help="Three letters: EUR, USD, PHP." />
        <SelectField name="allergenList" label="Which law’s list of allergens?" choices={allergenLists} />
        <ChoiceField
          name="start"
          label="How to start"
          choices={[
            {
              value: 'demo',
              words: 'With the demo café',
              help: 'Invented recipes, panels and scores to look around in, marked as demo.',
            },
            { value: 'empty', words: 'Empty', help: 'Only a starter set of ingredients with published figures.' },
          ]}
        />
      </ActForm>
    </Door>
  )
}
