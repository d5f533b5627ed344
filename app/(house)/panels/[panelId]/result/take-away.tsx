import { Section } from '@/app/ui/page-frame'

const files = [
  ['scores', 'Scores as CSV, one line per answer'],
  ['columns', 'What each column means'],
  ['panel', 'The whole panel as JSON'],
  ['r-script', 'An R script that computes the planned comparisons from the scores file'],
] as const

/** @param command  words of the `stats` command that give this page's numbers from the scores file */
export function TakeAway({ here, command }: { here: string; command: string | null }) {
  return (
    <Section title="Take the data away">
      <ul className="grid gap-1">
        {files.map(([name, words]) => (
          <li key={name}>
            <a href={`${here}/export/${name}`} download>
              {words}
            </a>
          </li>
        ))}
      </ul>
      {command && (
        <p className="mt-3 max-w-prose">
          From the scores file, <code className="break-words">npm run -s stats -- {command}</code> computes the numbers
          of this page.
        </p>
      )}
    </Section>
  )
}
