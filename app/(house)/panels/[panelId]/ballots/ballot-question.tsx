import type { ReactNode } from 'react'
import type { BallotSeat } from '@/lib/tasks/pour/read-ballots'

interface Props {
  readonly name: string
  readonly ask: BallotSeat['asks'][number]
  /** words of the nine steps */
  readonly scale: readonly string[]
}

/** One question of one cup, to be answered with a pen. */
export function BallotQuestion({ name, ask, scale }: Props) {
  if (ask.kind === 'steps')
    return (
      <Row name={`${name}: circle one`} span={scale.length}>
        {ask.steps.map((words, at) => (
          <span key={words} className="whitespace-nowrap">
            {at + 1} {words}
          </span>
        ))}
      </Row>
    )
  if (ask.kind === 'line')
    return (
      <Row name={`${name}: mark the line`} span={scale.length}>
        {/* 100 mm on paper: where the mark stands is measured in millimetres, and typed in so */}
        <span className="w-[100mm] max-w-full pt-3">
          <span className="block border-b border-ink" aria-hidden="true" />
          <span className="flex justify-between gap-4">
            <span>{ask.low}</span>
            <span className="text-end">{ask.high}</span>
          </span>
        </span>
      </Row>
    )
  if (ask.kind === 'words')
    return (
      <Row name={`${name}: tick all that apply`} span={scale.length}>
        {ask.words.map(({ place, word }) => (
          <span key={place} className="flex items-center gap-1 whitespace-nowrap">
            <span className="inline-block size-3 border border-ink" aria-hidden="true" />
            {word}
          </span>
        ))}
      </Row>
    )
  return (
    <tr className="break-inside-avoid">
      <Head name={name} />
      {scale.map((words, at) => (
        <td key={words} className="py-1 text-center">
          {at + 1}
        </td>
      ))}
    </tr>
  )
}

function Head({ name }: { name: string }) {
  return (
    <th scope="row" className="w-1/3 py-1 pe-2 text-start align-top font-normal">
      {name}
    </th>
  )
}

function Row({ name, span, children }: { name: string; span: number; children: ReactNode }) {
  return (
    <tr className="break-inside-avoid">
      <Head name={name} />
      <td colSpan={span} className="py-1">
        <span className="flex flex-wrap items-end gap-x-4 gap-y-1">{children}</span>
      </td>
    </tr>
  )
}
