import type { ReactNode } from 'react'
import { ActButton } from '@/app/ui/act-button'
import { localRules, Notice } from '@/app/ui/notice'
import { Page } from '@/app/ui/page-frame'

/** What one must know before a list opens: it is recorded, and whoever has seen both cannot taste. */
export function ListDoor({
  trail,
  title,
  answer,
  other,
  openedOther,
  action,
  submit,
  children,
}: {
  readonly trail: { readonly href: string; readonly words: string }[]
  readonly title: string
  readonly answer: string
  /** the other list's name */
  readonly other: string
  readonly openedOther: boolean
  readonly action: () => Promise<void>
  readonly submit: string
  readonly children?: ReactNode
}) {
  return (
    <Page trail={trail} title={title} answer={answer}>
      <div className="grid max-w-prose gap-5">
        {openedOther ? (
          <Notice look="stop" word="You have opened the other list">
            You opened the {other}. If you open this one too, you know which cup is which and cannot taste. That is
            recorded with your name and the time.
          </Notice>
        ) : (
          <Notice>
            Opening it is recorded with your name and the time. If you have opened the other list too, you cannot taste.
            Better that somebody else opens the {other}.
          </Notice>
        )}
        {children}
        <Notice look="caution">
          Hot syrup sticks and burns: let it cool before it is handed over. Milk and plant drinks stay at 5 °C or below
          until poured; what stood warm is thrown away. Ice is food: scoop it, no hands. {localRules}
        </Notice>
        <ActButton action={action} words={submit} />
      </div>
    </Page>
  )
}
