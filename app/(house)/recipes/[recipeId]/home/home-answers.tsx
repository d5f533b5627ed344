import { ActButton } from '@/app/ui/act-button'
import { homeLikingWords } from '@/lib/forms/home-answer-form'
import type { HomeAnswerLine, readHomeSheets } from '@/lib/tasks/home/read-home-sheets'
import { ButtonLink } from '@/app/ui/button'
import { sayDay } from '@/app/ui/moment'
import { Empty } from '@/app/ui/page-frame'
import { forgetHomeAction } from './actions'

type Found = NonNullable<Awaited<ReturnType<typeof readHomeSheets>>>

const sources: Readonly<Record<string, string>> = { link: 'by the link', pasted: 'pasted in', paper: 'from paper' }

/** What came back, in the words it came in: nothing is averaged. */
export function HomeAnswers({
  found,
  zone,
  writes,
  here,
  page,
}: {
  found: Found
  zone: string
  writes: boolean
  here: string
  page: number
}) {
  if (found.answers.length === 0 && page === 1) return <Empty words="Nothing has come back yet." />
  return (
    <>
      <ul className="divide-y divide-line">
        {found.answers.map((answer) => (
          <li key={answer.id} className="grid gap-1 py-3">
            <Answer answer={answer} zone={zone} />
            {writes && <Forget answer={answer} recipeId={found.recipe.id} />}
          </li>
        ))}
      </ul>
      {found.more && (
        <ButtonLink look="plain" href={`${here}?page=${page + 1}`}>
          Earlier answers
        </ButtonLink>
      )}
    </>
  )
}

function Answer({ answer, zone }: { answer: HomeAnswerLine; zone: string }) {
  const { liking, changed, further, name, trial } = answer
  return (
    <>
      <p className="font-semibold">
        {liking === null ? 'How they liked it is not said' : `${liking}, ${homeLikingWords[liking - 1] ?? ''}`}
        {name !== null && `: ${name}`}
      </p>
      {changed !== null && (
        <p className="break-words whitespace-pre-line">
          <span className="text-soft">Changed: </span>
          {changed}
        </p>
      )}
      {further !== null && <p className="break-words whitespace-pre-line">{further}</p>}
      <p className="text-s text-soft">
        Sheet {answer.sheetVersion}, {trial.number}. {trial.name}; {sayDay(answer.at, zone)}, {sources[answer.source]}
        {answer.by !== null && ` by ${answer.by}`}; knowing what they had made.
      </p>
    </>
  )
}

/** For who asks to be forgotten; how they liked it stays. */
function Forget({ answer: { id, name, changed, further }, recipeId }: { answer: HomeAnswerLine; recipeId: string }) {
  return (
    <div className="flex flex-wrap gap-x-2">
      {name !== null && (
        <ActButton
          action={forgetHomeAction.bind(null, recipeId, id, 'name')}
          words={`Forget the name ${name}`}
          look="quiet"
        />
      )}
      {(changed !== null || further !== null) && (
        <ActButton
          action={forgetHomeAction.bind(null, recipeId, id, 'words')}
          words="Take out what they wrote"
          look="quiet"
        />
      )}
    </div>
  )
}
