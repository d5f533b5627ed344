'use client'

import { useEffect, useRef, useState } from 'react'
import { Button } from './button'

interface Said {
  readonly lines: readonly string[]
  readonly hundred?: { readonly found: number; readonly cannotTell: number; readonly wrong: number } | null
  /** the lines are a formula’s, and a rehearsal says it better */
  readonly askRehearsal?: boolean
  /** what a rehearsal puts in place of the lines beside the form */
  readonly figures?: readonly string[] | null
}

export interface SaidFirst {
  readonly lines: readonly string[]
  readonly askRehearsal: boolean
}

/** Long enough that a number is typed whole, short enough that one sees what it does. */
const PAUSE_MS = 350

/** What the plan comes to, reckoned anew as one types; and a rehearsal of it, by itself where only that tells, or asked for. */
export function PlanFigures({ recipeId, first }: { readonly recipeId: string; readonly first: SaidFirst }) {
  const place = useRef<HTMLDivElement>(null)
  // what is answered to what was typed before is nobody's any more
  const typings = useRef(0)
  const [said, setSaid] = useState<Said>(first)
  const [played, setPlayed] = useState<Said | 'playing' | null>(null)
  const [isRehearsing, setRehearsing] = useState(false)
  const askAtFirst = first.askRehearsal

  useEffect(() => {
    const form = place.current?.closest('form')
    if (!form) return
    let timer = 0
    const rehearseQuietly = async (turn: number) => {
      setRehearsing(true)
      const answer = await ask(rehearsalOf(form, recipeId))
      if (turn !== typings.current) return
      setRehearsing(false)
      if (answer?.figures) setSaid({ lines: answer.figures })
    }
    const reckon = async (turn: number) => {
      const answer = await ask(queryOf(form, recipeId))
      if (turn !== typings.current || !answer) return
      setSaid(answer)
      if (answer.askRehearsal) await rehearseQuietly(turn)
    }
    const onInput = () => {
      window.clearTimeout(timer)
      const turn = ++typings.current
      setPlayed(null)
      setRehearsing(false)
      timer = window.setTimeout(() => void reckon(turn), PAUSE_MS)
    }
    form.addEventListener('input', onInput)
    if (askAtFirst) timer = window.setTimeout(() => void rehearseQuietly(typings.current), PAUSE_MS)
    return () => {
      window.clearTimeout(timer)
      form.removeEventListener('input', onInput)
    }
  }, [recipeId, askAtFirst])

  const rehearse = async () => {
    const form = place.current?.closest('form')
    if (!form || played === 'playing') return
    const turn = typings.current
    setPlayed('playing')
    const answer = await ask(rehearsalOf(form, recipeId))
    if (turn !== typings.current) return
    setPlayed(answer ?? { lines: ['The café’s computer did not answer. Try again.'] })
    if (answer?.figures) setSaid({ lines: answer.figures })
  }

  return (
    <div ref={place} className="grid max-w-prose gap-3">
      <ul aria-live="polite" aria-label="What this plan comes to" className="grid gap-1">
        {said.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {isRehearsing && <p className="text-soft">How often the best stands alone is being rehearsed …</p>}
      <details className="rounded border border-line bg-raised">
        <summary className="min-h-11 px-4 py-2 font-semibold">Rehearse it</summary>
        <div className="grid gap-3 border-t border-line px-4 py-3">
          <p className="text-soft group-has-[input[value=choice]:checked]/plan:hidden group-has-[input[value=difference]:checked]/plan:hidden">
            The plan is played a thousand times with invented tasters, and read as the real panel will be.
          </p>
          <p className="hidden text-soft group-has-[input[value=choice]:checked]/plan:block group-has-[input[value=difference]:checked]/plan:block">
            What becomes of a hundred panels like this, by the test that will read the real one.
          </p>
          <span>
            <Button type="button" look="plain" onClick={() => void rehearse()} aria-disabled={played === 'playing'}>
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
    asks: text('kind'),
    share: text('share'),
    above: text('above'),
    oddAim: text('odd.aim'),
    oddAsks: text('odd.asks'),
    oddProtocol: text('odd.protocol'),
    oddEach: text('odd.each'),
    oddShare: text('odd.share'),
    aim: text('aim'),
    kind: text('primaryKind'),
    difference: text('smallestDifference'),
    margin: text('notWorseMargin'),
    ml: text('sampleMl'),
    twice: text('duplicate'),
  })
}

function rehearsalOf(form: HTMLFormElement, recipeId: string): URLSearchParams {
  const query = queryOf(form, recipeId)
  query.set('rehearse', '1')
  return query
}

async function ask(query: URLSearchParams): Promise<Said | null> {
  try {
    const answer = await fetch(`/panels/figures?${query.toString()}`)
    return answer.ok ? ((await answer.json()) as Said) : null
  } catch {
    return null
  }
}
