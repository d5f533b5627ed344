/**
 * A process of its own for one large panel, so that the memory it takes is told apart. Prints what it found as JSON.
 * Takes the number of tasters, and computes a quarter of them beside.
 */
import { acceptance } from '@/lib/stats/liking/acceptance'
import { inventedRows, withoutOrder } from './invented-rows'
import { timed } from './measure'

export interface LargePanel {
  readonly small: number
  readonly large: number
  /** the most this process ever held, over what it held before the first row, MB */
  readonly grownMegabytes: number
}

const before = process.memoryUsage().rss
const panelOf = (tasters: number) => withoutOrder(inventedRows(tasters, 6, 4, 99))
const tasters = Number(process.argv[2])
const [few, many] = [panelOf(tasters / 4), panelOf(tasters)]
const small = timed(() => acceptance(few, { level: 0.95 }), 2, 9).median
const large = timed(() => acceptance(many, { level: 0.95 }), 1, 5).median
const most = process.resourceUsage().maxRSS * 1024
const found: LargePanel = { small, large, grownMegabytes: (most - before) / 2 ** 20 }
process.stdout.write(JSON.stringify(found))
