const rows = [
  ['Owner', 'Everything: team, café, recipes, trials, panels, decisions.'],
  ['Developer', 'Recipes, trials, ingredients, panels, results, decisions.'],
  ['Pourer', 'The filling list, the serving list and the progress of an open panel. Nothing else.'],
  ['Viewer', 'Reads recipes, decisions and closed panels, and takes their scores away as files.'],
] as const

export function RightsTable() {
  return (
    <dl className="grid gap-2">
      {rows.map(([role, words]) => (
        <div key={role} className="sm:grid sm:grid-cols-[8rem_1fr]">
          <dt className="font-semibold">{role}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  )
}

export const roleChoices = [
  { value: 'developer', words: 'Developer: recipes, trials, panels' },
  { value: 'pourer', words: 'Pourer: lists and progress of an open panel' },
  { value: 'viewer', words: 'Viewer: reads' },
  { value: 'owner', words: 'Owner: everything' },
] as const
