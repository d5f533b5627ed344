import { Section } from '@/app/ui/page-frame'
import type { Reproduced } from '@/lib/tasks/result/read-reproduced'

const filesOf = (kind: string) => {
  const isLiking = kind === 'liking'
  const isOrder = kind === 'rank'
  const each = kind === 'difference' ? 'set' : isOrder ? 'cup and taster' : 'taster'
  return [
    ['scores', isLiking ? 'Scores as CSV, one line per answer' : `Answers as CSV, one line per ${each}`],
    ['columns', 'What each column means'],
    ['panel', 'The whole panel as JSON'],
    [
      'r-script',
      `An R script that computes ${isLiking ? 'the planned comparisons from the scores file' : `the exact ${isOrder ? 'tests' : 'test'} from the answers file`}`,
    ],
  ] as const
}

const furtherFiles = {
  'just-right': 'Liking with what was asked on steps or along a line, one line per cup and taster',
  words: 'Which words were ticked, one line per word',
} as const

/** @param again  words of the `stats` command that give this page's numbers from these files */
export function TakeAway({ here, again, kind }: { here: string; again: Reproduced | null; kind: string }) {
  const isLiking = kind === 'liking'
  const further = again?.further ?? []
  const command = again?.command
  const more = [...new Set(further.map(({ file }) => file))].map((file) => [file, furtherFiles[file]] as const)
  return (
    <Section title="Take the data away">
      <ul className="grid gap-1">
        {[...filesOf(kind), ...more].map(([name, words]) => (
          <li key={name}>
            <a href={`${here}/export/${name}`} download>
              {words}
            </a>
          </li>
        ))}
      </ul>
      {command && (
        <p className="mt-3 max-w-prose">
          From the {isLiking ? 'scores' : 'answers'} file,{' '}
          <code className="break-words">npm run -s stats -- {command}</code> computes the numbers of this page.
        </p>
      )}
      {further.map(({ name, command: words }) => (
        <p key={name} className="mt-3 max-w-prose">
          Those of “{name}”: <code className="break-words">npm run -s stats -- {words}</code>
        </p>
      ))}
    </Section>
  )
}
