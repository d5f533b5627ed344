import type { ReactNode } from 'react'
import { ActButton } from '@/app/ui/act-button'
import { localRules, Notice } from '@/app/ui/notice'
import { Page } from '@/app/ui/page-frame'
import type { ListHead } from '@/lib/tasks/pour/read-pouring-list'
import type { ListName } from '@/lib/panel/pouring-list'
import { sayDoor } from './say-list-door'

/** What one must know before a list opens: it is recorded, and what opening it means for who tastes. */
export function ListDoor({
  trail,
  list,
  head,
  answer,
  action,
  children,
}: {
  readonly trail: { readonly href: string; readonly words: string }[]
  readonly list: ListName
  readonly head: ListHead
  readonly answer: string
  /** told whether the reader was asked about the seat they hold: then the button says what it does to it */
  readonly action: (agreed: 'yes' | 'not-asked') => Promise<void>
  readonly children?: ReactNode
}) {
  const { title, recorded, otherOpened, seatHeld, submit } = sayDoor(list, head)
  return (
    <Page trail={trail} title={title} answer={answer}>
      <div className="grid max-w-prose gap-5">
        {seatHeld && (
          <Notice look="stop" word={seatHeld.word}>
            {seatHeld.words}
          </Notice>
        )}
        {otherOpened ? (
          <Notice look="stop" word="You have opened the other list">
            {otherOpened}
          </Notice>
        ) : (
          <Notice>{recorded}</Notice>
        )}
        {children}
        <Notice look="caution">
          Hot syrup sticks and burns: let it cool before it is handed over. Milk and plant drinks stay at 5 °C or below
          until poured; what stood warm is thrown away. Ice is food: scoop it, no hands. {localRules}
        </Notice>
        <ActButton
          action={action.bind(null, seatHeld ? 'yes' : 'not-asked')}
          words={submit}
          look={seatHeld ? 'stop' : 'main'}
        />
      </div>
    </Page>
  )
}
