import type { ReactNode } from 'react'
import Link from 'next/link'

/**
 * One page of the ledger: where it sits, the sentence its reader came for, one next act, then the evidence.
 */
export function Page({
  trail,
  title,
  answer,
  act,
  actBeside = false,
  children,
}: {
  /** the way here, nearest last */
  trail?: readonly { readonly href: string; readonly words: string }[]
  title: ReactNode
  /** what one came to know, in a sentence */
  answer?: ReactNode
  /** the one next act */
  act?: ReactNode
  /** at a desk the act stands beside the title, at the right edge, and what follows stands higher */
  actBeside?: boolean
  children?: ReactNode
}) {
  return (
    <main id="content" className="mx-auto w-full max-w-5xl px-4 pt-4 pb-24 print:p-0">
      {trail && trail.length > 0 && (
        <nav aria-label="You are here" className="screen-only mb-2 text-s text-soft">
          <ol className="flex flex-wrap gap-x-2">
            {trail.map((step) => (
              <li key={step.href} className="after:ms-2 after:content-['/'] last:after:content-none">
                <Link href={step.href} prefetch={false} className="inline-block py-1">
                  {step.words}
                </Link>
              </li>
            ))}
          </ol>
        </nav>
      )}
      <div className={actBeside ? 'lg:flex lg:items-start lg:justify-between lg:gap-6' : undefined}>
        <div className="min-w-0">
          <h1>{title}</h1>
          {answer && <div className="mt-2 max-w-prose text-l text-ink">{answer}</div>}
        </div>
        {act && (
          <div
            className={`screen-only mt-4 flex flex-wrap items-center gap-3 ${actBeside ? 'lg:mt-0 lg:shrink-0' : ''}`}
          >
            {act}
          </div>
        )}
      </div>
      <div className="mt-6 grid grid-cols-[minmax(0,1fr)] gap-8">{children}</div>
    </main>
  )
}

export function Section({ title, aside, children }: { title: string; aside?: ReactNode; children: ReactNode }) {
  const id = title.toLowerCase().replace(/[^a-z0-9]+/g, '-')
  return (
    <section aria-labelledby={id}>
      <div className="mb-3 flex flex-wrap items-baseline justify-between gap-x-4 border-b border-line pb-1">
        <h2 id={id}>{title}</h2>
        {aside && <div className="text-s text-soft">{aside}</div>}
      </div>
      {children}
    </section>
  )
}

/** What folds says what is in it. */
export function Fold({ words, open = false, children }: { words: ReactNode; open?: boolean; children: ReactNode }) {
  return (
    <details open={open} className="rounded border border-line bg-raised">
      <summary className="min-h-11 px-4 py-2 font-semibold">{words}</summary>
      <div className="border-t border-line px-4 py-3">{children}</div>
    </details>
  )
}

/** Nothing here yet, and what to do about it. */
export function Empty({ words, act }: { words: ReactNode; act?: ReactNode }) {
  return (
    <div className="rounded border border-dashed border-edge px-4 py-6">
      <p className="max-w-prose">{words}</p>
      {act && <div className="mt-3">{act}</div>}
    </div>
  )
}
