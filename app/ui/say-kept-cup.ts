import type { KeptCup } from '@/lib/tasks/privacy/read-kept'

/** What one taster said of one cup: "Overall liking 7, sweetness 5; written: “…”" */
export function sayKeptCup({ answers, comment, skip, apart }: KeptCup): string {
  const said = [
    answers.map(({ question, value }) => `${question} ${value}`).join(', '),
    skip === null ? '' : `left out: ${skip.replaceAll('-', ' ')}`,
    comment ? `written: “${comment}”` : '',
    apart.length > 0 ? `kept apart, not counted: ${apart.map(({ value }) => value).join(', ')}` : '',
  ].filter((part) => part !== '')
  return said.length > 0 ? said.join('; ') : 'nothing'
}
