import Link from 'next/link'
import { fixed, plain } from '@/lib/base/number-format'
import type { BuildLine } from '@/lib/drink/trial'
import type { ScaleStep } from '@/lib/drink/scale'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import type { HomeWords } from '@/lib/tasks/store/home-words'
import { sayFigure } from '@/app/ui/figure'
import { sayLevel } from '@/app/ui/say-level'
import { sayTyped } from '@/app/ui/unit-words'
import { sayBrewing } from './say-brewing'
import { sayTooCoarse } from './scale/say-scale'
import { Sheet } from './sheet-parts'

const SHOWN = 3
const number = 'py-0.5 ps-3 text-end'

/** What goes in, in the order poured: target with its tolerance, room in the glass, and what the scale showed. */
export function Ledger({ sheet, home }: { sheet: TrialSheet; home: HomeWords | null }) {
  const { build, figures, scale, methodWords } = sheet
  const level = sayLevel(build)
  const weighed = build.lines.some(({ weighedGrams }) => weighedGrams !== null)
  const shown = lastWeighed(sheet)
  return (
    <Sheet title="What goes in" aside={methodWords}>
      {level && <p className="mb-2 font-semibold">{level}</p>}
      <div className="relative overflow-x-auto" role="region" aria-label="Lines of the build" tabIndex={0}>
        <table className="w-full text-start">
          <thead>
            <tr className="border-b border-ink text-s">
              <th scope="col" className="py-0.5 pe-2 text-start">
                <span className="sr-only">Line</span>
              </th>
              <th scope="col" className="py-0.5 text-start">
                In this order
              </th>
              <th scope="col" className={number}>
                Target
              </th>
              {weighed && (
                <th scope="col" className={number}>
                  Weighed
                </th>
              )}
              <th scope="col" className={number}>
                In the glass
              </th>
              {shown && (
                <th scope="col" className={number}>
                  The last weighings
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {build.lines.map((line, place) => (
              <tr key={line.key} className="border-b border-line align-baseline">
                <td className="py-0.5 pe-2 text-s text-soft">{place + 1}</td>
                <What line={line} step={scale.steps[place]} home={home?.get(line.key)} />
                <Target line={line} step={scale.steps[place]} />
                {weighed && <Weighed line={line} step={scale.steps[place]} />}
                <td className={`${number} whitespace-nowrap`}>
                  {figures.lines[place] ? sayFigure(figures.lines[place].volume, 0) : ''}
                </td>
                {shown && <td className={`${number} text-soft`}>{shown(place + 1)}</td>}
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr className="align-baseline font-semibold">
              <td className="py-0.5" />
              <td className="py-0.5">All together</td>
              <td className={number}>
                {scale.finalGrams === null ? 'not known' : `${fixed(scale.finalGrams, 1)} g`}
                {scale.finalGrams !== null && <Allowed of={scale} />}
              </td>
              {weighed && <td className={`${number} whitespace-nowrap`}>{sayFigure(figures.totalMass, 1)}</td>}
              <td className={`${number} whitespace-nowrap`}>{sayFigure(figures.volume, 0)}</td>
              {shown && <td />}
            </tr>
          </tfoot>
        </table>
      </div>
      <HomeAsked trialId={sheet.trial.id} home={home} />
    </Sheet>
  )
}

/** Household measures stand there on request alone, by an address that can be kept. */
function HomeAsked({ trialId, home }: { trialId: string; home: HomeWords | null }) {
  return (
    <p className="mt-2 text-s text-soft">
      <Link
        href={home ? `/trials/${trialId}` : `/trials/${trialId}?measures=home`}
        prefetch={false}
        scroll={false}
        className="screen-only inline-block py-1"
      >
        {home ? 'Grams alone' : 'With home measures'}
      </Link>
      {home && (
        <span className="block">
          {home.size === 0 && 'No spoon of it was weighed here and no density is known: it stays in grams. '}
          Spoons of what the house weighed a spoon of, from 2 g; millilitres and cups by a known density; all else in
          grams.
        </span>
      )}
    </p>
  )
}

type Stepped = { line: BuildLine; step: ScaleStep | undefined }

function What({ line, step, home }: Stepped & { home: string | undefined }) {
  const how = [
    line.insteadOf === null ? '' : `in place of ${line.insteadOf}`,
    line.temperature === null ? '' : `at ${plain(line.temperature, 1)} °C`,
    step?.brew ? sayBrewing(step.brew) : '',
  ].filter((words) => words !== '')
  return (
    <th scope="row" className="py-0.5 text-start font-normal">
      {line.name}
      {how.length > 0 && <span className="text-s text-soft">, {how.join('; ')}</span>}
      {home && <span className="block text-s">{home}</span>}
      {step?.tooCoarse && <span className="block text-s text-caution">{sayTooCoarse(step.tooCoarse)}</span>}
    </th>
  )
}

function Target({ line: { targetGrams, typed, density, densityIsAssumed }, step }: Stepped) {
  const weighed = step?.brew ?? step
  return (
    <td className={number}>
      <span className="whitespace-nowrap">
        {fixed(targetGrams, weighed?.decimals ?? 1)} g{step?.brew && ' dry'}
      </span>
      {weighed && <Allowed of={weighed} />}
      {typed && typed.unit !== 'g' && (
        <span className="block text-s text-soft">
          {sayTyped(typed)}
          {densityIsAssumed && typed.density === density && ', assumed'}
        </span>
      )}
    </td>
  )
}

const Allowed = ({ of: { tolerance, decimals } }: { of: Pick<ScaleStep, 'tolerance' | 'decimals'> }) => (
  <span className="block text-s font-normal whitespace-nowrap text-soft sm:inline">
    {' '}
    ± {fixed(tolerance, decimals)}
  </span>
)

/** Held against the tolerance that stands beside it. */
function Weighed({ line, step }: Stepped) {
  const { tolerance, decimals } = step?.brew ?? step ?? { tolerance: Infinity, decimals: 1 }
  const off = line.weighedGrams === null ? 0 : line.weighedGrams - line.targetGrams
  return (
    <td className={`${number} whitespace-nowrap`}>
      {line.weighedGrams === null ? 'not weighed' : `${fixed(line.weighedGrams, decimals)} g`}
      {Math.abs(off) > tolerance + 1e-9 && (
        <span className="block text-s font-semibold text-caution">{fixed(off, decimals)} g off</span>
      )}
    </td>
  )
}

/** What the scale showed of a line for one glass, the newest last; null where nobody weighed it yet. */
function lastWeighed({ weighings }: TrialSheet): ((position: number) => string) | null {
  const last = weighings.slice(0, SHOWN).toReversed()
  if (last.length === 0) return null
  return (position) =>
    last
      .map(({ weights, glasses }) => {
        const one = weights.find((weight) => weight.position === position)
        return one ? fixed(one.grams / glasses, 1) : '–'
      })
      .join(' · ')
}
