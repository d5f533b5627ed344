import { fixed, plain } from '@/lib/base/number-format'
import type { BuiltPart, LineRepeat } from '@/lib/tasks/trial/read-built'
import type { TakeRefusal } from '@/lib/tasks/trial/take-weights'

const signed = (value: number, digits: number) => `${value < 0 ? '−' : '+'}${fixed(Math.abs(value), digits)}`

/** "+0.4 g (+1.3 %)", or that nobody can say. */
export function sayOffBy({ off, offPercent }: Pick<BuiltPart | LineRepeat, 'off' | 'offPercent'>): string {
  if (off === null) return 'not known'
  return `${signed(off, 1)} g${offPercent === null ? '' : ` (${signed(offPercent, 1)} %)`}`
}

export function sayWithin(within: boolean | null): string {
  return within === null ? 'not known' : within ? 'within tolerance' : 'beyond tolerance'
}

/** "15.2 g dry, 150 g of water at 92 °C, ground medium, 245 s": what was written down. */
export function sayBrewed(done: {
  readonly dose: number | null
  readonly water: number | null
  readonly temperature: number | null
  readonly grind: string | null
  readonly seconds: number | null
}): string {
  const said = [
    done.dose === null ? null : `${plain(done.dose, 1)} g dry`,
    done.water === null ? null : `${plain(done.water, 1)} g of water`,
    done.temperature === null ? null : `at ${plain(done.temperature, 1)} °C`,
    done.grind === null ? null : `ground ${done.grind}`,
    done.seconds === null ? null : `${plain(done.seconds, 0)} s`,
  ]
  return said.filter((words) => words !== null).join(', ')
}

export const sayTakeRefusal: Readonly<Record<TakeRefusal, string>> = {
  gone: 'This weighing is not there any more.',
  frozen:
    'This trial is frozen, so nothing of it was changed. Make another trial from it: the weights go into that one.',
  'sheet-changed': 'The sheet asks for something else by now, so these weights are not its own. Nothing was changed.',
  'nothing-weighed': 'Nothing in it is a weight of a line: of coffee that is brewed it is the dry dose that counts.',
}
