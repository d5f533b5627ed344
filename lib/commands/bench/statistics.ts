import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { acceptance } from '@/lib/stats/liking/acceptance'
import { tastersForDifference } from '@/lib/stats/plan/choice-power'
import { typescriptWords } from '../start/typescript.mjs'
import { besideR } from './beside-r'
import { csvOf, inventedRows, withoutOrder } from './invented-rows'
import type { LargePanel } from './large-panel'
import { below, plainly, sayTail, spreadOf, timed, type Measured } from './measure'
import { runProgram } from './run-program'

const part = 'stats'

/** @param folder  a temporary one, for files that programs read */
export async function benchStatistics(folder: string): Promise<Measured[]> {
  return [
    ...resultPage(),
    manyTasters(),
    ...(await largePanel()),
    ...(await wholeProcess(folder)),
    ...(await besideR(folder)),
  ]
}

function resultPage(): Measured[] {
  const ordered = Array.from({ length: 8 }, (_, seed) => inventedRows(60, 5, 5, seed + 1))
  // As lib/tasks/result/read-result.ts asks: order effects for overall liking, and none for the seven further aspects.
  const asked = ordered.map((rows, place) => (place === 0 ? rows : withoutOrder(rows)))
  const run = (attributes: typeof ordered) => () => attributes.map((rows) => acceptance(rows, { level: 0.95 }))
  const page = timed(run(asked), 20, 41)
  const all = timed(run(ordered), 5, 21)
  const one = timed(run(asked.slice(1, 2)), 5, 41)
  const what = (words: string) => `60 tasters × 5 cups × ${words}, warm, median`
  return [
    below(
      { part, what: what('8 attributes as the result page asks'), unit: 'ms', note: sayTail(page) },
      page.median,
      30,
    ),
    plainly({ part, what: what('8 attributes, order effects for each'), unit: 'ms', note: sayTail(all) }, all.median),
    plainly({ part, what: what('1 attribute without order effects'), unit: 'ms', note: sayTail(one) }, one.median),
  ]
}

function manyTasters(): Measured {
  const ask = () => tastersForDifference({ protocol: 'duo-trio', pd: 0.03, alpha: 0.05 }, { power: 0.9 })
  const spread = timed(ask, 1, 5)
  const what = `how many tasters find 3 % who tell, ${ask().n} of them, median`
  return below({ part, what, unit: 'ms', note: sayTail(spread) }, spread.median, 1000)
}

async function largePanel(): Promise<Measured[]> {
  const [twenty, hundred] = [await ofSize(20_000), await ofSize(100_000)]
  const what = (words: string) => `${words} tasters × 4 of 6 cups`
  const memory = 'memory a fresh process takes for it, rows included'
  return [
    below({ part, what: `${what('20 000')}, median`, unit: 'ms' }, twenty.large, 300),
    below({ part, what: `${what('20 000')}, ${memory}`, unit: 'MB' }, twenty.grownMegabytes, 300),
    below({ part, what: `${what('100 000')}, median`, unit: 'ms' }, hundred.large, 1600),
    below({ part, what: `${what('100 000')}, ${memory}`, unit: 'MB' }, hundred.grownMegabytes, 300),
    plainly(
      { part, what: 'time for 20 000 tasters over time for 5 000 (4 is linear)', unit: 'times' },
      twenty.large / twenty.small,
    ),
  ]
}

async function ofSize(tasters: number): Promise<LargePanel> {
  const words = typescriptWords('lib/commands/bench/large-panel.ts', [String(tasters)])
  const { code, output, errors } = await runProgram(process.execPath, words, 120_000)
  if (code !== 0) throw new Error(`the large panel ended with ${code}: ${errors}`)
  return JSON.parse(output) as LargePanel
}

/** The command by Node, compiled as it is after its first run, and npm's own time beside it. */
async function wholeProcess(folder: string): Promise<Measured[]> {
  const file = join(folder, 'scores.csv')
  writeFileSync(file, csvOf(inventedRows(60, 5, 5, 1)))
  const timed = async (program: string, words: readonly string[]) => {
    const times: number[] = []
    for (let run = 0; run < 6; run++) {
      const ran = await runProgram(program, [...words, 'acceptance', file], 60_000)
      if (ran.code !== 0) throw new Error(`stats ended with ${ran.code}: ${ran.errors}`)
      if (run > 0) times.push(ran.milliseconds)
    }
    return spreadOf(times)
  }
  const byNode = await timed(process.execPath, ['lib/commands/compiled.mjs', 'stats'])
  const byNpm = await timed('npm', ['run', '-s', 'stats', '--'])
  const what = '`stats acceptance` on 300 rows, whole process'
  return [
    below({ part, what: `${what}, by node, median`, unit: 'ms', note: sayTail(byNode) }, byNode.median, 400),
    plainly({ part, what: `${what}, by npm, median`, unit: 'ms', note: sayTail(byNpm) }, byNpm.median),
  ]
}
