import { Notice } from './notice'

/** What must be said beside a drink, one sentence a line, as lib/drink/caution puts it. */
export function Cautions({ said }: { said: readonly string[] }) {
  if (said.length === 0) return null
  return (
    <Notice look="caution">
      <span className="mt-1 grid gap-1">
        {said.map((words) => (
          <span key={words}>{words}</span>
        ))}
      </span>
    </Notice>
  )
}
