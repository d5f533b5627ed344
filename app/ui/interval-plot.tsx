'use client'

import { CartesianGrid, ErrorBar, ReferenceLine, Scatter, ScatterChart, XAxis, YAxis } from 'recharts'
import { fixed } from '@/lib/base/number-format'
import { markOf, shapePath } from './cup-mark'

export interface IntervalRow {
  readonly key: string
  /** the cup whose mark is drawn */
  readonly letter: string
  readonly label: string
  readonly value: number
  readonly low: number | null
  readonly high: number | null
}

export interface IntervalPlotProps {
  readonly title: string
  readonly rows: readonly IntervalRow[]
  readonly domain: readonly [number, number]
  readonly ticks: readonly number[]
  readonly axis: string
  /** upright lines with a word each: zero, the margin */
  readonly lines?: readonly { readonly at: number; readonly words: string }[]
  readonly width: number
}

const rowHeight = 48
const labelWidth = 132

/** Values and their intervals on one common scale. Colour, shape and letter each tell the cups apart. */
export function IntervalPlot({ title, rows, domain, ticks, axis, lines = [], width }: IntervalPlotProps) {
  const points = rows.map((row, place) => ({
    x: row.value,
    y: rows.length - place,
    reach: row.low === null || row.high === null ? undefined : [row.value - row.low, row.high - row.value],
    row,
  }))
  return (
    <ScatterChart
      width={width}
      height={rows.length * rowHeight + 72}
      margin={{ top: 24, right: 16, bottom: 24, left: 0 }}
      title={title}
      accessibilityLayer={false}
      role="img"
      aria-label={title}
    >
      <CartesianGrid horizontal={false} stroke="var(--line)" />
      <XAxis
        type="number"
        dataKey="x"
        domain={[domain[0], domain[1]]}
        ticks={[...ticks]}
        tickFormatter={(tick: number) => fixed(tick, Number.isInteger(tick) ? 0 : 1)}
        stroke="var(--ink)"
        tick={{ fill: 'var(--ink)', fontSize: 13 }}
        label={{ value: axis, position: 'insideBottom', offset: -14, fill: 'var(--soft-ink)', fontSize: 13 }}
        allowDataOverflow
      />
      <YAxis
        type="number"
        dataKey="y"
        domain={[0.5, rows.length + 0.5]}
        ticks={points.map((point) => point.y)}
        tickFormatter={(y: number) => shorten(rows[rows.length - y]?.label ?? '')}
        width={labelWidth}
        stroke="var(--line)"
        tick={{ fill: 'var(--ink)', fontSize: 13 }}
        interval={0}
      />
      {lines.map((line) => (
        <ReferenceLine
          key={line.words + line.at}
          x={line.at}
          stroke="var(--ink)"
          strokeDasharray={line.at === 0 ? undefined : '4 4'}
          label={{ value: line.words, position: 'top', fill: 'var(--ink)', fontSize: 12 }}
        />
      ))}
      <Scatter data={points} shape={Mark} isAnimationActive={false}>
        <ErrorBar
          dataKey="reach"
          direction="x"
          width={8}
          strokeWidth={2}
          stroke="var(--ink)"
          isAnimationActive={false}
        />
      </Scatter>
    </ScatterChart>
  )
}

const shorten = (label: string) => (label.length > 18 ? `${label.slice(0, 17)}…` : label)

interface MarkProps {
  readonly cx?: number
  readonly cy?: number
  readonly payload?: { readonly row: IntervalRow }
}

function Mark({ cx = 0, cy = 0, payload }: MarkProps) {
  const letter = payload?.row.letter ?? 'A'
  return (
    <path
      d={shapePath(letter)}
      transform={`translate(${cx - 10} ${cy - 10})`}
      fill={markOf(letter).colour}
      stroke="var(--ink)"
      strokeWidth={1.5}
    />
  )
}
