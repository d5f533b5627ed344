import type { Visitor } from '../bench/visitor'

/** Presses the button of a page's form as a browser does that has no script yet. @throws when the page is not led on from */
export async function press(visitor: Visitor, path: string, formId: string): Promise<void> {
  const page = await (await visitor.ask(path)).text()
  const form = new RegExp(`<form[^>]*id="${formId}"[^>]*>(.*?)</form>`, 's').exec(page)?.[1]
  if (form === undefined) throw new Error(`${path} has no form ${formId}`)
  const fields = new FormData()
  for (const [tag] of form.matchAll(/<input[^>]*type="hidden"[^>]*>/g)) {
    const read = (name: string) => plain(new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1] ?? '')
    fields.append(read('name'), read('value'))
  }
  const answer = await visitor.post(path, fields, { headers: { origin: visitor.address } })
  if (answer.status !== 303) throw new Error(`${path} was answered with ${answer.status}`)
}

function plain(text: string): string {
  const signs: Readonly<Record<string, string>> = {
    '&quot;': '"',
    '&#x27;': "'",
    '&lt;': '<',
    '&gt;': '>',
    '&amp;': '&',
  }
  return text.replace(/&(quot|#x27|lt|gt|amp);/g, (sign) => signs[sign] ?? sign)
}
