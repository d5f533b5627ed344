'use client'

import { useState, useTransition } from 'react'
import { Notice } from './notice'

interface TrayCup {
  readonly servingId: string
  readonly letter: string
  readonly code: string
  readonly poured: boolean
}

interface Tray {
  readonly seat: number
  readonly left: boolean
  readonly cups: readonly TrayCup[]
}

type Tick = (form: FormData) => Promise<boolean>

/** Trays by seat, each cup a button to tick; printed, the button is an empty box. */
export function TrayList({ trays, tick }: { readonly trays: readonly Tray[]; readonly tick: Tick }) {
  const [poured, setPoured] = useState(
    () => new Set(trays.flatMap((tray) => tray.cups.filter((cup) => cup.poured).map((cup) => cup.servingId))),
  )
  const [failed, setFailed] = useState(false)
  const [, startTransition] = useTransition()
  const all = trays.reduce((sum, tray) => sum + tray.cups.length, 0)

  function mark(servingIds: readonly string[], to: boolean) {
    const put = (set: ReadonlySet<string>, on: boolean) => {
      const next = new Set(set)
      for (const id of servingIds)
        if (on) next.add(id)
        else next.delete(id)
      return next
    }
    setPoured((before) => put(before, to))
    startTransition(async () => {
      const form = new FormData()
      for (const id of servingIds) form.append('servings', id)
      form.append('poured', to ? 'yes' : 'no')
      const kept = await tick(form).catch(() => false)
      if (!kept) setPoured((before) => put(before, !to))
      setFailed(!kept)
    })
  }

  return (
    <section aria-labelledby="trays" className="grid gap-4">
      <div className="flex flex-wrap items-baseline justify-between gap-x-4 border-b border-line pb-1">
        <h2 id="trays">Trays</h2>
        <p className="screen-only text-s text-soft" role="status">
          {poured.size} of {all} cups poured
        </p>
      </div>
      {failed && (
        <Notice look="stop" word="Not ticked" live>
          The café’s computer did not take it. Is the panel still open, and are you on its network?
        </Notice>
      )}
      <ol className="grid gap-4 md:grid-cols-2 print:grid-cols-2 print:gap-3">
        {trays.map((tray) => (
          <TrayCard key={tray.seat} tray={tray} poured={poured} mark={mark} />
        ))}
      </ol>
    </section>
  )
}

function TrayCard({
  tray,
  poured,
  mark,
}: {
  readonly tray: Tray
  readonly poured: ReadonlySet<string>
  readonly mark: (servingIds: readonly string[], to: boolean) => void
}) {
  const rest = tray.cups.filter((cup) => !poured.has(cup.servingId)).map((cup) => cup.servingId)
  return (
    <li className="break-inside-avoid rounded border border-line bg-raised p-4 print:border-ink print:p-3">
      <div className="mb-3 flex flex-wrap items-center justify-between gap-2">
        <h3 className="text-xl font-bold">Seat {tray.seat}</h3>
        {tray.left && <p className="text-s text-caution">has left: pour no more</p>}
        <button
          type="button"
          disabled={rest.length === 0}
          onClick={() => mark(rest, true)}
          className="screen-only min-h-11 cursor-pointer px-2 text-accent underline underline-offset-4 disabled:cursor-default disabled:text-soft disabled:no-underline"
        >
          {rest.length === 0 ? 'All poured' : 'Tick them all'}
        </button>
      </div>
      <ol className="grid gap-2">
        {tray.cups.map((cup) => (
          <li key={cup.servingId}>
            <CupButton cup={cup} seat={tray.seat} done={poured.has(cup.servingId)} mark={mark} />
          </li>
        ))}
      </ol>
    </li>
  )
}

function CupButton({
  cup,
  seat,
  done,
  mark,
}: {
  readonly cup: TrayCup
  readonly seat: number
  readonly done: boolean
  readonly mark: (servingIds: readonly string[], to: boolean) => void
}) {
  return (
    <button
      type="button"
      aria-pressed={done}
      aria-label={`Seat ${seat}: jug ${cup.letter}, code ${cup.code.split('').join(' ')}, poured`}
      onClick={() => mark([cup.servingId], !done)}
      className={`flex min-h-14 w-full cursor-pointer items-center gap-4 rounded border px-4 text-start print:min-h-10 ${done ? 'border-accent bg-accent-soft' : 'border-edge bg-paper'}`}
    >
      <span className="w-10 text-xl font-bold">{cup.letter}</span>
      <span aria-hidden="true" className="text-soft">
        →
      </span>
      <span className="grow text-xl font-bold tracking-widest">{cup.code}</span>
      <span className="screen-only text-s text-soft">{done ? 'poured' : 'tick'}</span>
      <span className="print-only size-6 border-2 border-ink" />
    </button>
  )
}
