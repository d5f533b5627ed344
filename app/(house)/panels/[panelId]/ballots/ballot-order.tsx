/**
 * In which order? A box for the place beside each code, in the order of tasting. A code is underlined: turned round, 869 reads as
 * another.
 */
export function BallotOrder({ codes }: { readonly codes: readonly string[] }) {
  const last = codes.length
  return (
    <section className="mt-2 break-inside-avoid border-t border-edge pt-2">
      <p>
        Taste them one after the other, in this order, with a sip of water before each. Go back to any as often as you
        like. Then write into each box the place of its cup.
      </p>
      <h3 className="mt-2">
        In which order do you like them? 1 for the cup you like best, 2 for the next best, up to {last}.
      </h3>
      <ol className="mt-2 grid gap-3">
        {codes.map((code, at) => (
          <li key={code} className="flex items-center gap-3">
            <span className="w-16">Cup {at + 1}</span>
            <strong className="text-l font-bold tracking-widest underline underline-offset-4">{code}</strong>
            <span className="inline-block size-9 shrink-0 border border-ink" aria-hidden="true" />
            <span>place</span>
          </li>
        ))}
      </ol>
      <p className="mt-2">
        Each number from 1 to {last} once. If two seem alike, choose all the same: with a number twice, or a box left
        empty, your order cannot be counted.
      </p>
      <p className="mt-3 flex gap-2">
        <span>Why you leave them out, if you do</span>
        <span className="grow border-b border-edge" />
      </p>
    </section>
  )
}
