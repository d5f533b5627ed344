import { gzipSync } from 'node:zlib'
import { below, type Measured } from './measure'
import { sitDown } from './phones'

/** What a taster's page loads, weighed as a server that packs would send it. */
export async function benchTasterPage(address: string, joinPath: string): Promise<Measured[]> {
  const { visitor } = await sitDown(address, joinPath, 'Weight')
  const page = await (await visitor.ask('/taste')).text()
  const scripts = [...page.matchAll(/<script[^>]+src="([^"]+)"/g)].map((match) => match[1] ?? '')
  if (scripts.length === 0) throw new Error('the taster’s page names no script')
  let bytes = 0
  for (const src of scripts) {
    const answer = await visitor.ask(src)
    if (answer.status !== 200) throw new Error(`${src} answered ${answer.status}`)
    bytes += gzipSync(await answer.text()).length
  }
  const inline = [...page.matchAll(/<script(?![^>]+src=)[^>]*>([\s\S]*?)<\/script>/g)].map((match) => match[1] ?? '')
  bytes += gzipSync(inline.join('\n')).length
  const what = `JavaScript of the taster’s page, gzipped, ${scripts.length} file and what stands in the page`
  return [below({ part: 'taster-page', what, unit: 'kB' }, bytes / 1000, 150)]
}
