import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** Rows of a checked-in CSV of reference readings; these hold neither quotes nor commas within a cell. */
export function readReferenceTable(name: string): Record<string, string>[] {
  const path = fileURLToPath(new URL(`../reference/data/${name}`, import.meta.url))
  const [head = '', ...lines] = readFileSync(path, 'utf8').trim().split(/\r?\n/)
  const names = head.split(',')
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [names[i] ?? '', cell])))
}
