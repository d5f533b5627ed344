import type { Progress } from '@/lib/tasks/pour/read-progress'
import { Notice } from './notice'

const told: Readonly<Record<NonNullable<Progress['disk']>, { look: 'stop' | 'caution'; word: string; words: string }>> =
  {
    full: {
      look: 'stop',
      word: 'The disk of the café’s computer is full',
      words:
        'nothing more can be kept until somebody makes room on it. Phones keep what was typed and send it by themselves as soon as there is room, so leave their pages open. Nothing that was saved is lost.',
    },
    'nearly-full': {
      look: 'caution',
      word: 'The disk of the café’s computer is nearly full',
      words: 'make room on it before the next panel.',
    },
  }

/** Tells whoever is signed in, wherever they look first. */
export function DiskNotice({ disk, live = false }: { readonly disk: Progress['disk']; readonly live?: boolean }) {
  if (disk === null) return null
  const { look, word, words } = told[disk]
  return (
    <Notice look={look} word={word} live={live}>
      {words}
    </Notice>
  )
}
