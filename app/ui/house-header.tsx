'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'

export interface Door {
  readonly href: string
  readonly words: string
  readonly open: boolean
}

const isHere = (path: string, href: string) =>
  href === '/' ? path === '/' : path === href || path.startsWith(`${href}/`)

export function HouseHeader({
  cafe,
  isDemo,
  person,
  doors,
}: {
  cafe: string
  isDemo: boolean
  person: string
  doors: readonly Door[]
}) {
  const path = usePathname()
  return (
    <header className="screen-only border-b border-line bg-raised">
      <a href="#content" className="sr-only focus:not-sr-only focus:absolute focus:m-2 focus:bg-raised focus:p-2">
        To the content
      </a>
      <div className="mx-auto flex max-w-5xl flex-wrap items-center justify-between gap-x-6 px-4 pt-2">
        <p className="flex items-baseline gap-3 py-1">
          <span className="font-bold tracking-tight">Sipwright</span>
          <span className="text-s text-soft">
            {cafe}
            {isDemo && <span className="ms-2 rounded border border-caution px-1 text-caution">demo</span>}
          </span>
        </p>
        <Link href="/account" prefetch={false} className="py-2 text-s">
          {person}
        </Link>
      </div>
      <nav aria-label="House" className="mx-auto max-w-5xl relative overflow-x-auto px-2">
        <ul className="flex">
          {doors.map((door) => {
            const here = isHere(path, door.href)
            return (
              <li key={door.href}>
                <Link
                  href={door.href}
                  prefetch={false}
                  aria-current={here ? 'page' : undefined}
                  className={`flex min-h-11 items-center border-b-3 px-1 text-s no-underline sm:px-3 sm:text-m ${here ? 'border-accent font-semibold text-ink' : 'border-transparent text-soft hover:text-ink'}`}
                >
                  {door.words}
                </Link>
              </li>
            )
          })}
        </ul>
      </nav>
    </header>
  )
}
