import type { LaidHistory } from './history'
import { below, sayTail, spreadOf, type Measured } from './measure'
import type { Visitor } from './visitor'

const WARM_UPS = 3
const RUNS = 21

/** How long the server takes for a whole page, asked for one after the other. */
export async function benchPages(owner: Visitor, laid: LaidHistory): Promise<Measured[]> {
  const paths = {
    home: '/',
    panels: '/panels',
    recipes: '/recipes',
    'the recipe of all of them': `/recipes/${laid.recipeId}`,
    'why this one': `/recipes/${laid.recipeId}/why`,
    'a trial of it': `/trials/${laid.trialId}`,
    'result, 8 attributes': `/panels/${laid.panelId}/result`,
    'decide on it': `/panels/${laid.panelId}/decide`,
    store: '/store',
  }
  const found: Measured[] = []
  for (const [name, path] of Object.entries(paths)) {
    const times: number[] = []
    for (let run = 0; run < WARM_UPS + RUNS; run++) {
      const began = performance.now()
      const answer = await owner.ask(path)
      const page = await answer.text()
      if (answer.status !== 200 || !page.includes('</html>')) throw new Error(`${path} answered ${answer.status}`)
      if (run >= WARM_UPS) times.push(performance.now() - began)
    }
    const spread = spreadOf(times)
    const what = `${name}, with ${laid.panels} closed panels of 60 × 5, median`
    found.push(below({ part: 'pages', what, unit: 'ms', note: sayTail(spread) }, spread.median, 200))
  }
  return found
}
