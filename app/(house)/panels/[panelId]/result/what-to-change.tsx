import { fixed, plain } from '@/lib/base/number-format'
import type { CupDrops, DropAnswer, DropSide, WordsAnswer } from '@/lib/tasks/result/further-questions'
import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { CupName } from '@/app/ui/cup-mark'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

/** What further questions suggest: which side of “just right” goes with less liking, and which words set cups apart. */
export function WhatToChange({ result }: { result: NamelessResult }) {
  if (result.drops.length + result.ticked.length === 0) return null
  return (
    <Section title="What to change" aside="It suggests; the planned comparison is the liking above">
      <div className="grid gap-8">
        {result.drops.map((asked) => (
          <Drops key={asked.attributeId} asked={asked} result={result} />
        ))}
        {result.ticked.map((asked) => (
          <Words key={asked.attributeId} asked={asked} result={result} />
        ))}
      </div>
    </Section>
  )
}

const percent = (share: number) => `${plain(share * 100, 0)} %`

function Drops({ asked, result }: { asked: DropAnswer; result: NamelessResult }) {
  const [, low = '', , high = ''] = asked.steps
  const answered = asked.cups.filter(({ answers }) => answers > 0)
  const said = answered.flatMap((cup) => sayCup(cup, low, high))
  return (
    <div className="grid gap-2">
      <h3>{asked.question.name}</h3>
      {answered.length === 0 && <p className="text-soft">Nobody answered it.</p>}
      {said.length > 0 && (
        <ul className="grid max-w-prose list-disc gap-1 ps-5">
          {said.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {answered.length > 0 && (
        <>
          <ScrollTable
            label={`${asked.question.name}: shares, and how much less liked`}
            heads={['Cup', 'Answers', low, 'just right', high, `less liked: ${low}`, `less liked: ${high}`]}
          >
            {answered.map((cup) => {
              const known = result.cups.find(({ letter }) => letter === cup.letter)
              const [farLow = 0, aLow = 0, right = 0, aHigh = 0, farHigh = 0] = cup.shares ?? []
              return [
                cup.letter,
                known ? <CupName key="name" {...known} /> : cup.letter,
                cup.answers,
                percent(farLow + aLow),
                percent(right),
                percent(aHigh + farHigh),
                sayDrop(cup.tooLittle),
                sayDrop(cup.tooMuch),
              ]
            })}
          </ScrollTable>
          <p className="text-s text-soft">
            Less liked: mean liking of those who said “just right” less that of the side, in points, with its 95 %
            interval. A suggestion stands after all sides of all these questions are counted (Holm), and only where at
            least one taster in five says it. Less liking goes with an answer; it need not come from it.
          </p>
        </>
      )}
    </div>
  )
}

function sayDrop(side: DropSide | null): string {
  if (side === null) return 'too few'
  const [low, high] = side.interval ?? [null, null]
  return low === null || high === null
    ? fixed(side.meanDrop, 1)
    : `${fixed(side.meanDrop, 1)} (${fixed(low, 1)} to ${fixed(high, 1)})`
}

function sayCup({ letter, tooLittle, tooMuch, shares, justRight }: CupDrops, low: string, high: string): string[] {
  const side = (one: DropSide | null, word: string) => {
    if (one?.told !== 'costs-liking') return []
    const [least, most] = one.interval ?? [one.meanDrop, one.meanDrop]
    return [
      `Cup ${letter}: ${percent(one.share)} say “${word}”, and like it ${fixed(one.meanDrop, 1)} points less (${fixed(least, 1)} to ${fixed(most, 1)}) than those for whom it is just right. Try changing this.`,
    ]
  }
  const found = [...side(tooLittle, low), ...side(tooMuch, high)]
  if (found.length > 0) return found
  if (justRight === null) return [`Cup ${letter}: too few say “just right” to see what the others like less.`]
  const right = shares?.[2] ?? 0
  return [`Cup ${letter}: just right for ${percent(right)}; no side is told to cost liking.`]
}

function Words({ asked, result }: { asked: WordsAnswer; result: NamelessResult }) {
  const { answer, question } = asked
  if (!answer) return <p className="text-soft">{question.name}: nobody answered it.</p>
  const letters = result.cups
    .map(({ letter }) => letter)
    .filter((letter) => answer.terms[0]?.shares[letter] !== undefined)
  const apart = answer.terms.filter(({ pHolmTerms }) => pHolmTerms !== null && pHolmTerms <= 1 - answer.level)
  return (
    <div className="grid gap-2">
      <h3>{question.name}</h3>
      <p className="max-w-prose">
        {apart.length === 0
          ? 'No word is told to set the cups apart.'
          : `Words that set the cups apart: ${apart.map(({ term, pairs }) => sayPairs(term, pairs, answer.level)).join('; ')}.`}
      </p>
      <ScrollTable
        label={`${question.name}: share of tasters who ticked each word`}
        heads={['Word', ...letters.map((letter) => `cup ${letter}`), 'p after Holm']}
      >
        {answer.terms.map(({ term, shares, pHolmTerms }) => [
          term,
          term,
          ...letters.map((letter) => percent(shares[letter] ?? 0)),
          pHolmTerms === null ? 'nothing to test' : pHolmTerms < 0.001 ? 'below 0.001' : fixed(pHolmTerms, 3),
        ])}
      </ScrollTable>
      <p className="text-s text-soft">
        Cochran’s test for each word, exact where it can be counted, Holm over the words; which cups differ by McNemar’s
        exact test, Holm within the word.
      </p>
    </div>
  )
}

function sayPairs(term: string, pairs: NonNullable<WordsAnswer['answer']>['terms'][number]['pairs'], level: number) {
  const differ = pairs.filter(({ pHolm }) => pHolm <= 1 - level).map(({ a, b }) => `${a} and ${b}`)
  return differ.length === 0 ? `“${term}”` : `“${term}” (${differ.join(', ')})`
}
