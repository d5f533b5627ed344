import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { fixed } from '@/lib/base/number-format'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { ShareLine } from './share-line'
import { methodNames, methodWords } from '../../say-difference'

type Difference = NonNullable<NamelessResult['difference']>

const percent = (share: number) => 100 * share
/** No share of people lies below nothing or above all, whatever an interval reaches. */
const sayShare = (share: number) => `${fixed(percent(Math.min(1, Math.max(0, share))), 1)} %`
const sayP = (p: number) => (p < 0.001 ? 'below 0.001' : fixed(p, 3))

/** How many were right, and what share can really tell. @param open  on paper nothing folds */
export function DifferenceSection({ result, open = false }: { result: NamelessResult; open?: boolean }) {
  const { difference } = result
  if (!difference?.telling) return null
  const { telling, similarity } = difference
  return (
    <Section title="How many can really tell" aside="Of a hundred tasters; the right answers less those of luck">
      <ShareLine
        title="Share of tasters who can really tell, with its 95 % interval"
        axis={`In a hundred; ${similarity ? `few is left of the dashed line at ${fixed(percent(similarity.bound), 0)}` : '0: nobody can'}`}
        value={percent(telling.estimate)}
        low={telling.interval && percent(telling.interval[0])}
        high={telling.interval && percent(telling.interval[1])}
        bound={similarity ? percent(similarity.bound) : null}
      />
      <Fold words="The same as a table" open={open}>
        <ScrollTable label="What was found" heads={['What', 'Value']}>
          {linesOf(difference)}
        </ScrollTable>
      </Fold>
    </Section>
  )
}

function linesOf(found: Difference): [string, string, string][] {
  const { tasters, answers, right, guessing, p, critical, telling, dPrime, similarity } = found
  const between = telling?.interval ? ` (${sayShare(telling.interval[0])} to ${sayShare(telling.interval[1])})` : ''
  const lines: [string, string][] = [
    ['Tasters', String(tasters)],
    ['Answers', String(answers)],
    ['Right', String(right)],
    ['Right by luck, about', fixed(answers * guessing, 1)],
    ['It takes, to show a difference', critical === null ? 'no count does' : String(critical)],
    ['p, exact, one-sided', p === null ? 'none' : sayP(p)],
    ['Can really tell', telling ? `${sayShare(telling.estimate)}${between}` : 'none'],
    ['d′', dPrime?.estimate == null ? 'no finite value' : fixed(dPrime.estimate, 2)],
    ...(similarity
      ? ([
          ['Few is fewer than', sayShare(similarity.bound)],
          ['Upper limit at 95 %', sayShare(similarity.upper)],
          ['p of similarity, exact, one-sided', sayP(similarity.p)],
        ] as [string, string][])
      : []),
  ]
  return lines.map(([what, value]) => [what, what, value])
}

/** How the sentence was found. */
export function DifferenceMethod({ result }: { result: NamelessResult }) {
  const { difference } = result
  if (!difference) return null
  const { protocol, aim, each, guessing } = difference
  return (
    <div className="grid max-w-prose gap-3">
      {'program' in result.found && <p>Sentences by version {result.found.program}.</p>}
      <p>
        {methodNames[protocol].charAt(0).toUpperCase() + methodNames[protocol].slice(1)}: {methodWords[protocol]}
      </p>
      <p>
        {aim === 'alike'
          ? 'The sentence rests on the exact one-sided test that fewer than the planned share can tell, at five in a hundred; where fewer are right than luck explains it is not said. Whether some can tell is said beside it.'
          : `The sentence rests on the exact one-sided test of all right answers against luck, ${guessing === 0.5 ? 'one in two' : 'one in three'}, at five in a hundred, and on nothing else.`}{' '}
        (ISO 4120, ISO 10399, ISO 5495, ASTM E3009.)
      </p>
      <p>
        The share who can really tell is what is right beyond luck: it takes it that who can tell is always right, and
        the others guess.{' '}
        {each === 1
          ? 'Its interval comes from the exact interval of the right answers (Clopper and Pearson). It asks both ways, the test one: at the edge it may reach 0 where the test tells.'
          : 'Its interval comes from the tasters’ own shares, by Student’s t, for one taster’s answers hang together; where nobody can tell they do not, so that the test over all of them keeps its level (Meyners and Brockhoff 2003).'}
      </p>
      <p>
        d′ says how far apart the cups lie, in units of one taster’s own wavering from sip to sip; it does not depend on
        the method. No claim rests on it.
      </p>
      <p>
        Every order was served equally often, at random over the seats. Only a person’s first answers count, as far as
        names tell.
      </p>
      <p className="text-soft">
        The tasters of one café are not all guests. That cups can be told apart does not say which is liked better; that
        a difference is not shown does not say that there is none.
      </p>
    </div>
  )
}
