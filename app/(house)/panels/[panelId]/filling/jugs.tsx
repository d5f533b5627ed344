import type { ListHead } from '@/lib/tasks/pour/read-pouring-list'
import type { JugFill } from '@/lib/tasks/pour/read-jug-fills'
import { JugParts } from './jug-parts'

/** One line a jug: the letter large enough to be read beside the tap. */
export function Jugs({ jugs, head }: { jugs: readonly JugFill[]; head: ListHead }) {
  const twice = jugs.find((jug, at) => jugs.findIndex((other) => other.trialNumber === jug.trialNumber) < at)
  return (
    <>
      <p className="max-w-prose">
        Build each trial by weight, chill it, strain it off the ice, and write the letter, and nothing else, on its jug.
        Then the jugs go to whoever has the serving list; the names stay here.
      </p>
      <table className="w-full">
        <caption className="sr-only">Jugs and what goes in</caption>
        <thead>
          <tr className="border-b border-line text-start text-s text-soft">
            <th className="py-2 pe-4 text-start font-normal">Jug</th>
            <th className="py-2 pe-4 text-start font-normal">Trial</th>
            <th className="py-2 text-end font-normal">Fill with</th>
            <th className="print-only py-2 ps-4 text-end font-normal">Filled</th>
          </tr>
        </thead>
        <tbody>
          {jugs.map((jug) => (
            <JugRows key={jug.letter} jug={jug} ml={head.mlPerJug} />
          ))}
        </tbody>
      </table>
      {twice && (
        <p className="max-w-prose">
          <strong className="font-semibold">{twice.trialName} goes into two jugs.</strong> That is meant: make one batch
          and share it out. Nobody else is told.
        </p>
      )}
      {head.sampleMl !== null && (
        <p className="max-w-prose text-soft">
          {head.portions} portions × {head.sampleMl} ml and 15 %; that holds {head.spare} spare{' '}
          {head.spare === 1 ? 'portion' : 'portions'} a jug.
        </p>
      )}
    </>
  )
}

function JugRows({ jug, ml }: { jug: JugFill; ml: number | null }) {
  return (
    <>
      <tr className={`break-inside-avoid align-baseline ${jug.fill === null ? 'border-b border-line' : ''}`}>
        <th scope="row" className="pt-3 pe-4 text-start text-xxl font-bold">
          {jug.letter}
        </th>
        <td className="pt-3 pe-4">
          <span className="text-l">{jug.trialName}</span>
          <span className="block text-s text-soft">trial {jug.trialNumber}</span>
        </td>
        <td className="pt-3 text-end text-l whitespace-nowrap">{ml === null ? 'same for all' : `${ml} ml`}</td>
        <td className="print-only pt-3 ps-4 text-end">
          <span className="inline-block size-6 border-2 border-ink" />
        </td>
      </tr>
      {jug.fill !== null && (
        <tr className="break-inside-avoid border-b border-line">
          <td />
          <td colSpan={3} className="pb-3">
            <JugParts fill={jug.fill} />
          </td>
        </tr>
      )}
    </>
  )
}
