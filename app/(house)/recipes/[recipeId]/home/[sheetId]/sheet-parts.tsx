import { homeLikingWords } from '@/lib/forms/home-answer-form'
import { ActButton } from '@/app/ui/act-button'
import { ActForm } from '@/app/ui/act-form'
import { AreaField, HiddenField, SelectField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { typeInHomeAnswerAction, withdrawHomeSheetAction } from '../actions'

export function SheetActs({ recipeId, sheetId }: { recipeId: string; sheetId: string }) {
  return (
    <>
      <PrintButton words="Print the sheet" />
      <a
        href={`/recipes/${recipeId}/home/${sheetId}/file`}
        className="inline-flex min-h-11 items-center rounded border border-edge bg-raised px-4 py-2 font-semibold text-ink no-underline hover:border-ink"
        download
      >
        Take it as a file
      </a>
      <ActButton
        action={withdrawHomeSheetAction.bind(null, recipeId, sheetId)}
        words="Withdraw the sheet"
        look="quiet"
      />
    </>
  )
}

/** @param answerKey  of this showing of the page: sending it again adds nothing */
export function TypeInPart({ recipeId, sheetId, answerKey }: { recipeId: string; sheetId: string; answerKey: string }) {
  const choices = homeLikingWords.map((words, at) => ({ value: String(at + 1), words: `${at + 1} ${words}` }))
  return (
    <Fold words="Type in an answer from paper">
      <ActForm
        id="type-in-home-answer"
        action={typeInHomeAnswerAction.bind(null, recipeId, sheetId)}
        submit="Take it in"
        submitLook="plain"
        refused="Not taken in"
        className="max-w-md"
      >
        <HiddenField name="key" value={answerKey} />
        <SelectField name="liking" label="How they liked it" choices={choices} none="not said" />
        <AreaField name="changed" label="What they changed" />
        <AreaField name="further" label="What else they said" />
        <TextField
          name="name"
          label="Their first name, if they signed"
          help="Forgotten with the names of tasters, or when they ask."
        />
      </ActForm>
    </Fold>
  )
}
