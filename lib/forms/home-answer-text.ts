/**
 * How an answer from home travels where no house can be reached: as a text that a person can read, copy and send by whatever
 * they use. Written by the script of the file, read where it is pasted in; no package may be named here, because the file
 * carries this along.
 */

/** What somebody at home says. Empty texts where they left a field out. */
export interface HomeAnswerText {
  /** what the sheet is known by */
  readonly mark: string
  /** made where it was written: the same answer is taken in once */
  readonly key: string
  /** 1 to 9, as in the house; null where they did not say */
  readonly liking: number | null
  readonly changed: string
  readonly further: string
  readonly name: string
}

/** Characters, of what is typed and of a pasted text as a whole. */
export const HOME_LONGEST = { changed: 1000, further: 1000, name: 60, pasted: 8000 } as const

const FORM = 1

/**
 * The cyclic redundancy check of 32 bits that archives carry: a slip of copying changes it.
 *
 * Source   ISO-HDLC polynomial 0x04C11DB7, reflected, as in ISO 3309 and zlib; "123456789" gives CBF43926
 * Checked  test/unit/forms/home-answer-text.test.ts
 * Limits   It finds damage, not forgery: whoever has a sheet may answer it.
 */
export function checksum(text: string): string {
  let rest = 0xffffffff
  for (const byte of new TextEncoder().encode(text)) {
    rest ^= byte
    for (let bit = 0; bit < 8; bit++) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0)
  }
  return ((rest ^ 0xffffffff) >>> 0).toString(16).toUpperCase().padStart(8, '0')
}

const flat = (text: string) =>
  text
    .normalize('NFC')
    .replace(/[\u200b\ufeff]/g, '')
    .replace(/\s+/g, ' ')
    .trim()

/** Programs for letters wrap lines, change blanks and quote: what is summed is the words in their order. */
function sumOf({ mark, key, liking, changed, further, name }: HomeAnswerText): string {
  return checksum([mark, key, liking === null ? '' : String(liking), changed, further, name].map(flat).join('\n'))
}

const block = (label: string, text: string) =>
  flat(text) === ''
    ? []
    : [
        `${label}:`,
        ...text
          .trim()
          .split(/\r\n?|\n/)
          .map((line) => `| ${line.trim()}`),
      ]

/** @param likingWords  what the number says, for whoever reads the text; only the number is read back */
export function writeHomeAnswer(answer: HomeAnswerText, likingWords: string): string {
  return [
    `== Answer from home, form ${FORM} ==`,
    `sheet: ${answer.mark}`,
    `answer: ${answer.key}`,
    ...(answer.liking === null ? [] : [`liked: ${answer.liking} of 9, ${likingWords}`]),
    ...block('changed', answer.changed),
    ...block('further', answer.further),
    ...block('name', answer.name),
    `== End, check ${sumOf(answer)} ==`,
  ].join('\n')
}

/** Why a pasted text is none: no beginning in it, of a form to come, its end is missing, not as it was written, far too long. */
export type HomeTextFault = 'no-answer' | 'other-form' | 'cut-off' | 'damaged' | 'too-long'

const begins = /^==\s*Answer from home, form (\d{1,4})\s*==$/i
const ends = /^==\s*End, check ([0-9a-f]{8})\s*==$/i
const label = /^(sheet|answer|liked|changed|further|name):\s*(.*)$/

/** Reads one answer out of whatever was pasted: what stands before and after it, and the signs of quoting, count for nothing. */
export function readHomeAnswer(
  pasted: string,
): { readonly ok: true; readonly value: HomeAnswerText } | { readonly ok: false; readonly reason: HomeTextFault } {
  if (pasted.length > HOME_LONGEST.pasted) return { ok: false, reason: 'too-long' }
  const lines = pasted.split(/\r\n?|\n/).map((line) =>
    line
      .replace(/[\u200b\ufeff]/g, '')
      .replace(/^[\s>]+/, '')
      .trim(),
  )
  const first = lines.findIndex((line) => begins.test(line))
  if (first < 0) return { ok: false, reason: 'no-answer' }
  if (Number(begins.exec(lines[first] ?? '')?.[1]) !== FORM) return { ok: false, reason: 'other-form' }
  const last = lines.findIndex((line, at) => at > first && ends.test(line))
  if (last < 0) return { ok: false, reason: 'cut-off' }
  const answer = answerOf(fieldsOf(lines.slice(first + 1, last)))
  const said = ends.exec(lines[last] ?? '')?.[1]?.toUpperCase()
  return sumOf(answer) === said ? { ok: true, value: answer } : { ok: false, reason: 'damaged' }
}

/** A line that begins with | goes on with what was said; one without a sign is the rest of a line that was wrapped. */
function fieldsOf(lines: readonly string[]): ReadonlyMap<string, string> {
  const fields = new Map<string, string>()
  let field = ''
  for (const line of lines) {
    const [, name, rest = ''] = line.startsWith('|') ? [] : (label.exec(line) ?? [])
    if (name !== undefined) fields.set((field = name), rest)
    else if (line.startsWith('|')) fields.set(field, `${fields.get(field) ?? ''}\n${line.slice(1).trim()}`)
    else if (line !== '') fields.set(field, `${fields.get(field) ?? ''} ${line}`)
  }
  return fields
}

function answerOf(fields: ReadonlyMap<string, string>): HomeAnswerText {
  const text = (name: string) => (fields.get(name) ?? '').normalize('NFC').trim()
  const liked = /^\d+/.exec(text('liked'))
  return {
    mark: text('sheet'),
    key: text('answer'),
    liking: liked ? Number(liked[0]) : null,
    changed: text('changed'),
    further: text('further'),
    name: text('name'),
  }
}
