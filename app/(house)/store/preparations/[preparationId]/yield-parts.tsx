import Link from 'next/link'
import { fixed, plain } from '@/lib/base/number-format'
import type { BatchYield } from '@/lib/tasks/store/read-yields'
import { sayDay } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { percentOf, scaleOf } from '@/app/ui/plot-scale'
import { ScrollTable } from '@/app/ui/scroll-table'

/** What the batches came to over time, drawn and in a table, with who made them. */
export function YieldSection({ yields, here, zone }: { yields: readonly BatchYield[]; here: string; zone: string }) {
  const percents = yields.flatMap(({ number, percent }) => (percent === null ? [] : [{ number, value: percent }]))
  const brixes = yields.flatMap(({ number, brix }) => (brix === null ? [] : [{ number, value: brix.value }]))
  const hasBrix = brixes.length > 0
  return (
    <Section title="Yield over time" aside="What came out of what went in">
      <div className="mb-4 grid gap-6 sm:grid-cols-2">
        {percents.length > 1 && <BatchPlot words="Yield, %" unit="%" points={percents} />}
        {brixes.length > 1 && <BatchPlot words="Brix, °Bx" unit="°Bx" points={brixes} />}
      </div>
      <ScrollTable
        label="Yield of each batch"
        heads={['Batch', 'Made', 'By', 'Formula', 'In, g', 'Out, g', 'Yield, %', ...(hasBrix ? ['°Bx'] : [])]}
      >
        {yields.toReversed().map((one) => [
          one.id,
          <Link key="batch" href={`${here}/batches/${one.id}`} prefetch={false} className="inline-block py-1">
            {one.number}
          </Link>,
          one.madeAt ? sayDay(one.madeAt, zone) : 'not said',
          one.by ?? 'not said',
          one.version === null ? 'none' : `version ${one.version}`,
          one.into === null ? 'not known' : plain(one.into, 1),
          one.output === null ? 'not weighed' : plain(one.output, 1),
          one.percent === null ? 'not known' : fixed(one.percent, 1),
          ...(hasBrix
            ? [
                one.brix === null
                  ? 'not known'
                  : `${fixed(one.brix.value, 1)} ${one.brix.isRead ? 'read' : 'by weight'}`,
              ]
            : []),
        ])}
      </ScrollTable>
    </Section>
  )
}

interface Point {
  readonly number: number
  readonly value: number
}

const TALL = 140

/** One figure of each batch, from the earliest to the newest. Drawn before any script, and prints; the table beside it says the same. */
function BatchPlot({ words, unit, points }: { words: string; unit: string; points: readonly Point[] }) {
  const up = scaleOf(
    points.map(({ value }) => value),
    4,
  )
  const digits = Math.min(2, Math.max(0, Math.ceil(-Math.log10((up.high - up.low) / 10))))
  const x = (at: number) => `${(100 * (at + 0.5)) / points.length}%`
  const y = (value: number) => TALL - (percentOf(value, up) / 100) * TALL
  const every = Math.ceil(points.length / 10)
  const said = points.map(({ number, value }) => `batch ${number}: ${fixed(value, 1)} ${unit}`).join('; ')
  return (
    <figure>
      <figcaption className="mb-2 font-semibold">{words}</figcaption>
      <div role="img" aria-label={`${words} by batch. ${said}`} className="ps-10">
        <svg width="100%" height={TALL + 24} className="overflow-visible" aria-hidden="true">
          {up.ticks.map((tick) => (
            <g key={tick}>
              <line x1="0%" x2="100%" y1={y(tick)} y2={y(tick)} stroke="var(--line)" />
              <text x="0%" dx={-6} y={y(tick) + 4} textAnchor="end" fontSize={13} fill="var(--ink)">
                {fixed(tick, digits)}
              </text>
            </g>
          ))}
          {points.map(({ number, value }, at) => {
            const before = points[at - 1]
            return (
              <g key={number}>
                {before && (
                  <line
                    x1={x(at - 1)}
                    y1={y(before.value)}
                    x2={x(at)}
                    y2={y(value)}
                    stroke="var(--soft-ink)"
                    strokeWidth={1.5}
                  />
                )}
                {at % every === 0 && (
                  <text x={x(at)} y={TALL + 18} textAnchor="middle" fontSize={13} fill="var(--ink)">
                    {number}
                  </text>
                )}
              </g>
            )
          })}
          {points.map(({ number, value }, at) => (
            <circle key={number} cx={x(at)} cy={y(value)} r={4} fill="var(--ink)" stroke="var(--paper)" />
          ))}
        </svg>
      </div>
      <p className="text-s text-soft">Batch number along the foot, the newest on the right.</p>
    </figure>
  )
}
