import type { ListName } from '@/lib/panel/pouring-list'
import type { ListHead } from '@/lib/tasks/pour/read-pouring-list'
import { listed } from '../panel-words'

interface DoorWords {
  readonly title: string
  readonly recorded: string
  readonly otherOpened: string | null
  /** said to who still tastes at this panel */
  readonly seatHeld: { readonly word: string; readonly words: string } | null
  readonly submit: string
}

const record = 'Opening it is recorded with your name and the time.'

/** What stands on the door of a list, for this reader. */
export function sayDoor(list: ListName, head: Pick<ListHead, 'openedOther' | 'holds'>): DoorWords {
  const seats = `${head.holds.length > 1 ? 'seats' : 'seat'} ${listed(head.holds.map(String))}`
  const isHeld = head.holds.length > 0
  if (list === 'serving') {
    return {
      title: 'Serving list',
      recorded: `${record} Whoever has opened this list cannot taste at this panel any more. Better that somebody else opens the filling list.`,
      otherOpened: head.openedOther
        ? `You opened the filling list. If you open this one too, you know which cup is which. ${record} You cannot taste at this panel any more.`
        : null,
      seatHeld: isHeld
        ? {
            word: `You are tasting at ${seats}`,
            words: `Opening this list closes ${seats}: what was scored before counts, nothing is taken after it. To go on tasting, let somebody else serve.`,
          }
        : null,
      submit: isHeld ? `Close ${seats} and open the serving list` : 'Open the serving list',
    }
  }
  return {
    title: 'Filling list',
    recorded: `${record} Better that somebody else opens the serving list: whoever has opened both knows which cup is which.`,
    otherOpened: head.openedOther
      ? `You opened the serving list, so you cannot taste. If you open this one too, you know which cup is which. ${record}`
      : null,
    seatHeld: isHeld
      ? {
          word: `You are tasting at ${seats}`,
          words: `At the door you said that you have not seen which drink is in which jug. Let somebody else fill the jugs. If you open this list all the same, leave the serving list alone: opening it would close ${seats}.`,
        }
      : null,
    submit: isHeld ? 'Open the filling list all the same' : 'Open the filling list',
  }
}
