'use client'

import { useEffect, useRef, useState } from 'react'
import { Button } from './button'

interface Said {
  readonly lines: readonly string[]
  readonly hundred?: { readonly found: number; readonly cannotTell: number; readonly wrong: number } | null
}

/** Long enough that a number is typed whole, short enough that one sees what it does. */
const PAUSE_MS = 350

/** What the plan comes to, reckoned anew as one types; and a rehearsal of it, when it is asked for. */
export function PlanFigures({ recipeId, first }: { readonly recipeId: string; readonly first: readonly string[] }) {
  const place = useRef<HTMLDivElement>(null)
  const [said, setSaid] = useState<Said>({ lines: first })
  const [played, setPlayed] = useState<Said | 'playing' | null>(null)

  useEffect(() => {
    const form = place.current?.closest('form')
    if (!form) return
    let timer = 0
    let asked = 0
    const reckon = () => {
      window.clearTimeout(timer)
      setPlayed(null)
      timer = window.setTimeout(() => {
        const turn = ++asked
        void ask(queryOf(form, recipeId)).then((answer) => turn === asked && answer && setSaid(answer))
      }, PAUSE_MS)
    }
    form.addEventListener('input', reckon)
    return () => {
      window.clearTimeout(timer)
      form.removeEventListener('input', reckon)
    }
  }, [recipeId])

  const rehearse = () => {
    const form = place.current?.closest('form')
    if (!form) return
    setPlayed('playing')
    const query = queryOf(form, recipeId)
    query.set('rehearse', '1')
    void ask(query).then((answer) => setPlayed(answer ?? { lines: ['The café’s computer did not answer. Try again.'] }))
  }

  return (
    <div ref={place} className="grid max-w-prose gap-3">
      <ul aria-live="polite" aria-label="What this plan comes to" className="grid gap-1">
        {said.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <details className="rounded border border-line bg-raised">
        <summary className="min-h-11 px-4 py-2 font-semibold">Rehearse it</summary>
        <div className="grid gap-3 border-t border-line px-4 py-3">
          <p className="text-soft">
            The plan is played a thousand times with invented tasters, and read as the real panel will be.
          </p>
          <span>
            <Button type="button" look="plain" onClick={rehearse} aria-disabled={played === 'playing'}>
              {played === 'playing' ? 'Playing…' : 'Play it'}
            </Button>
          </span>
          <div aria-live="polite" className="grid gap-3">
            {played !== null && played !== 'playing' && (
              <>
                {played.lines.map((line) => (
                  <p key={line}>{line}</p>
                ))}
                {played.hundred && <Hundred {...played.hundred} />}
              </>
            )}
          </div>
        </div>
      </details>
    </div>
  )
}

/** A hundred panels as a hundred small cups: full where it is found, empty where not, crossed out where misled. */
function Hundred({ found, cannotTell, wrong }: { found: number; cannotTell: number; wrong: number }) {
  const kinds = [
    ...Array.from({ length: found }, () => 'found'),
    ...Array.from({ length: cannotTell }, () => 'cannot-tell'),
    ...Array.from({ length: wrong }, () => 'wrong'),
  ]
  return (
    <svg
      viewBox="0 0 200 100"
      role="img"
      aria-label={`${found} of 100 find it, ${cannotTell} cannot tell, ${wrong} name the wrong one`}
      className="w-full max-w-80"
    >
      {kinds.map((kind, at) => {
        const [x, y] = [(at % 20) * 10, Math.floor(at / 20) * 20]
        return (
          <g key={at} transform={`translate(${x} ${y})`} stroke="var(--ink)" strokeWidth="0.8">
            <path d="M1.5 3 H8.5 L7.4 16 H2.6 Z" fill={kind === 'found' ? 'var(--accent)' : 'none'} />
            {kind === 'wrong' && <path d="M1 2 L9 17 M9 2 L1 17" fill="none" stroke="var(--stop)" strokeWidth="1.4" />}
          </g>
        )
      })}
    </svg>
  )
}

function queryOf(form: HTMLFormElement, recipeId: string): URLSearchParams {
  const data = new FormData(form)
  const text = (name: string) => {
    const value = data.get(name)
    return typeof value === 'string' ? value : ''
  }
  const cups = data.getAll('cups').length
  return new URLSearchParams({
    recipe: recipeId,
    cups: String(cups),
    perTaster: text('cupsPerTaster'),
    seats: text('seatCount'),
    aim: text('aim'),
    kind: text('primaryKind'),
    difference: text('smallestDifference'),
    margin: text('notWorseMargin'),
    ml: text('sampleMl'),
    twice: text('duplicate'),
  })
}

async function ask(query: URLSearchParams): Promise<Said | null> {
  try {
    const answer = await fetch(`/panels/figures?${query.toString()}`)
    return answer.ok ? ((await answer.json()) as Said) : null
  } catch {
    return null
  }
}
