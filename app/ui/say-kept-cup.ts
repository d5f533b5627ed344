import type { KeptCup } from '@/lib/tasks/privacy/read-kept'

/** What one taster said of one cup: "Overall liking 7, sweetness 5; written: “…”" */
export function sayKeptCup({ answers, comment, skip, apart }: KeptCup): string {
  const parts = [
    answers.map(({ question, said }) => `${question} ${said}`).join(', '),
    skip === null ? '' : `left out: ${skip.replaceAll('-', ' ')}`,
    comment ? `written: “${comment}”` : '',
    apart.length > 0 ? `kept apart, not counted: ${apart.map(({ said }) => said).join(', ')}` : '',
  ].filter((part) => part !== '')
  return parts.length > 0 ? parts.join('; ') : 'nothing'
}
