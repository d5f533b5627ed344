import type { ReactNode } from 'react'

/** A page before the house: one narrow column, one thing to do. */
export function Door({ title, words, children }: { title: string; words?: ReactNode; children?: ReactNode }) {
  return (
    <main id="content" className="mx-auto grid w-full max-w-md content-start gap-5 px-4 py-10">
      <p className="font-bold tracking-tight text-accent">Sipwright</p>
      <div>
        <h1>{title}</h1>
        {words && <p className="mt-2">{words}</p>}
      </div>
      {children}
    </main>
  )
}
