/** The file for home: whatever somebody typed stands in it as text, and its policy names its own script and style alone. */
import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { homeFile } from '@/app/home/file/home-file'
import type { HomeSheetWords } from '@/app/home/say-home-sheet'

const evil = `</script><script>alert('1')</script><img src=x onerror=alert(2)> "&`
const words: HomeSheetWords = {
  title: evil,
  head: [evil, evil],
  changed: [evil],
  standing: evil,
  lines: [{ name: evil, amount: evil, notes: [evil] }],
  steps: [evil],
  made: [{ name: evil, lines: [{ name: evil, amount: evil, notes: [] }], steps: [evil], notes: [evil] }],
  allergens: [[evil, evil]],
  cautions: [evil],
  mark: 'BCDF-GHJK"><b>',
}
const built = { script: 'start()', style: 'p{margin:0}' }

test('nothing that was typed becomes an element or leaves its attribute', () => {
  const file = homeFile(words, built)
  expect(file.match(/<script\b/g)).toHaveLength(1)
  expect(file).not.toMatch(/<img|<b>|onerror=alert\(2\)>/)
  expect(file).toContain('data-mark="BCDF-GHJK&#34;&#62;&#60;b&#62;"')
})

test('its policy asks no network and names its script and style by their sums', () => {
  const file = homeFile(words, built)
  const sum = (text: string) => createHash('sha256').update(text).digest('base64')
  const policy = /content="(default-src[^"]*)"/.exec(file)?.[1]?.replaceAll('&#39;', "'")
  expect(policy).toBe(
    `default-src 'none'; script-src 'sha256-${sum('start()')}'; style-src 'sha256-${sum('p{margin:0}')}'; base-uri 'none'; form-action 'none'`,
  )
  // what a browser sums is what stands between the tags, to the last blank
  expect(/<script>([\s\S]*?)<\/script>/.exec(file)?.[1]).toBe('start()')
  expect(/<style>([\s\S]*?)<\/style>/.exec(file)?.[1]).toBe('p{margin:0}')
  const elements = file.match(/<[a-z][^>]*>/g) ?? []
  expect(elements.length).toBeGreaterThan(40)
  expect(elements.filter((element) => /\s(src|href|action|srcset|style)\s*=/.test(element))).toEqual([])
})

test('a script that would end its own element is no script of ours', () => {
  expect(() => homeFile(words, { ...built, script: 'x="</script>"' })).toThrow(RangeError)
  expect(() => homeFile(words, { ...built, style: '</style>' })).toThrow(RangeError)
})
