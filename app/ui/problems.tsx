import type { Problem } from '@/lib/drink/figure'
import { Notice } from './notice'

/** What cannot be right must be mended; what is only doubtful asks for a second look. */
export function Problems({ problems }: { problems: readonly Problem[] }) {
  return problems.map(({ field, message, doubt }) => (
    <Notice key={field + message} look={doubt ? 'caution' : 'stop'} word={doubt ? 'Look again' : 'Mend'}>
      {message}
    </Notice>
  ))
}
