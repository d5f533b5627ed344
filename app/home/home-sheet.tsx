import type { HomeLineWords, HomeSheetWords } from './say-home-sheet'

/** The sheet as it is printed: black on white, whatever the screen's theme. */
export function HomeSheet({ words, likingWords }: { words: HomeSheetWords; likingWords: readonly string[] }) {
  return (
    <article className="max-w-[190mm] border border-line bg-[#fff] p-4 text-[#000] sm:p-8 print:border-0 print:p-0">
      <header>
        {words.head.slice(0, 1).map((line) => (
          <p key={line} className="text-[10pt]">
            {line}
          </p>
        ))}
        <h2 className="text-[20pt] leading-tight font-bold">{words.title}</h2>
        {words.head.slice(1).map((line) => (
          <p key={line}>{line}</p>
        ))}
      </header>
      {words.changed.length > 0 && (
        <div className="mt-3 border-4 border-[#000] p-2 font-bold">
          {words.changed.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      )}
      <Allergens words={words} />
      <Lines caption="Weigh, in this order" lines={words.lines} />
      <Steps steps={words.steps} />
      {words.made.map((made) => (
        <section key={made.name} className="mt-4 break-inside-avoid">
          <h3 className="font-bold">{made.name}</h3>
          {made.lines.length > 0 && <Lines caption="As the house makes it" lines={made.lines} />}
          <Steps steps={made.steps} />
          {made.notes.map((note) => (
            <p key={note} className="mt-1 text-[10pt]">
              {note}
            </p>
          ))}
        </section>
      ))}
      <p className="mt-4 font-bold">{words.standing}</p>
      <div className="mt-2 text-[10pt]">
        {words.cautions.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      <PaperAnswer mark={words.mark} likingWords={likingWords} />
    </article>
  )
}

function Allergens({ words: { allergens } }: { words: HomeSheetWords }) {
  return (
    <div className="mt-3 border-2 border-[#000] p-2">
      {allergens.map(([label, said]) => (
        <p key={label}>
          <strong>{label}:</strong> {said}
        </p>
      ))}
    </div>
  )
}

function Lines({ caption, lines }: { caption: string; lines: readonly HomeLineWords[] }) {
  return (
    <table className="mt-3 w-full">
      <caption className="text-start text-[10pt]">{caption}</caption>
      <tbody>
        {lines.map(({ name, amount, notes }, at) => (
          <tr key={at} className="break-inside-avoid border-b border-[#999] align-baseline">
            <th scope="row" className="py-1 text-start font-normal">
              {name}
              {notes.map((note) => (
                <span key={note} className="block text-[10pt]">
                  {note}
                </span>
              ))}
            </th>
            <td className="py-1 ps-2 text-end font-bold">{amount}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Steps({ steps }: { steps: readonly string[] }) {
  if (steps.length === 0) return null
  return (
    <ol className="mt-3 list-decimal ps-5">
      {steps.map((step, at) => (
        <li key={at}>{step}</li>
      ))}
    </ol>
  )
}

/** To be filled in with a pen and handed back; nothing of it is asked on a screen. */
function PaperAnswer({ mark, likingWords }: { mark: string; likingWords: readonly string[] }) {
  return (
    <section className="mt-6 hidden break-inside-avoid border-t-2 border-[#000] pt-3 print:block">
      <h3 className="font-bold">How was it? Write, and hand it back to the café. Sheet {mark}</h3>
      <p className="mt-2">Tick one, if you like:</p>
      <ol className="mt-1 columns-3 text-[10pt]">
        {likingWords.map((step, at) => (
          <li key={step}>
            ☐ {at + 1} {step}
          </li>
        ))}
      </ol>
      {['What I changed', 'What else I want to say', 'My first name, only if I want to'].map((line) => (
        <p key={line} className="mt-3 border-b border-[#999] pb-6 text-[10pt]">
          {line}
        </p>
      ))}
    </section>
  )
}
