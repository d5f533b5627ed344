import type { ReactNode } from 'react'
import type { BallotSeat } from '@/lib/tasks/pour/read-ballots'

type OddAsk = Extract<BallotSeat['asks'][number], { readonly kind: 'odd' }>

/** What a ballot asks of one set, by its method. */
function wordsOf({ protocol, property }: OddAsk): { readonly ask: string; readonly how: string } {
  switch (protocol) {
    case 'triangle':
      return { ask: 'Which one is different?', how: 'Two of these three are the same. Tick the one that is different.' }
    case 'duo-trio':
      return {
        ask: 'Which one is the same as the reference?',
        how: 'Taste the reference, then the two. One of them is the same as the reference: tick it.',
      }
    case 'two-afc':
      return { ask: `Which one is ${property}?`, how: 'Tick one.' }
    case 'three-afc':
      return {
        ask: `Which one is ${property}?`,
        how: `Two of these three are the same, one is ${property}. Tick it.`,
      }
    case 'tetrad':
      return {
        ask: 'Which two are the same?',
        how: 'Two of these are one drink, the other two another. Tick two that are the same.',
      }
  }
}

const Code = ({ children }: { readonly children: string }) => (
  <strong className="text-l font-bold tracking-widest underline underline-offset-4">{children}</strong>
)

/** Can they be told apart? Each set in the order of tasting, to be ticked with a pen. A code is underlined: turned round, 869 reads as another. */
export function BallotOdd({ sets, ask }: { readonly sets: readonly (readonly string[])[]; readonly ask: OddAsk }) {
  const { ask: question, how } = wordsOf(ask)
  return (
    <>
      <p className="mt-2">
        Taste from left to right, with a sip of water before each; go back as often as you like. Not sure? Guess: one
        has to be chosen, and a guess is an answer.
      </p>
      {sets.map((codes, at) => (
        <section key={codes.join('')} className="mt-2 break-inside-avoid border-t border-edge pt-2">
          <h3>
            {sets.length > 1 && (
              <span className="font-normal">
                Set {at + 1} of {sets.length}.{' '}
              </span>
            )}
            {question}
          </h3>
          <p>{how}</p>
          <ul className="mt-2 flex flex-wrap items-center gap-x-8 gap-y-3">
            {codes.map((code, place) =>
              ask.protocol === 'duo-trio' && place === 0 ? (
                <li key={code} className="flex items-center gap-2 border border-edge px-3 py-1">
                  Reference: <Code>{code}</Code>
                </li>
              ) : (
                <Tick key={code}>
                  <Code>{code}</Code>
                </Tick>
              ),
            )}
          </ul>
          <p className="mt-3 flex gap-2">
            <span>Why you leave these out, if you do</span>
            <span className="grow border-b border-edge" />
          </p>
        </section>
      ))}
    </>
  )
}

function Tick({ children }: { readonly children: ReactNode }) {
  return (
    <li className="flex items-center gap-2">
      <span className="inline-block size-5 shrink-0 border border-ink" aria-hidden="true" />
      {children}
    </li>
  )
}
