/** Two cups, which one? In the order of tasting, to be ticked with a pen. A code is underlined: turned round, 869 reads as another. */
export function BallotChoice({ codes, none }: { readonly codes: readonly string[]; readonly none: boolean }) {
  return (
    <section className="mt-2 break-inside-avoid border-t border-edge pt-2">
      <p>
        Taste the first, then the second, with a sip of water before each. Go back to either as often as you like. Then
        tick one.
      </p>
      <h3 className="mt-2">Which of these two do you like better?</h3>
      <ul className="mt-2 flex flex-wrap items-center gap-x-10 gap-y-3">
        {codes.map((code, at) => (
          <Tick key={code}>
            {at === 0 ? 'First' : 'Second'}:{' '}
            <strong className="text-l font-bold tracking-widest underline underline-offset-4">{code}</strong>
          </Tick>
        ))}
        {none && <Tick>No preference</Tick>}
      </ul>
      <p className="mt-3 flex gap-2">
        <span>Why you leave both out, if you do</span>
        <span className="grow border-b border-edge" />
      </p>
    </section>
  )
}

function Tick({ children }: { readonly children: React.ReactNode }) {
  return (
    <li className="flex items-center gap-2">
      <span className="inline-block size-5 shrink-0 border border-ink" aria-hidden="true" />
      <span>{children}</span>
    </li>
  )
}
