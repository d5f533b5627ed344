import { execFile } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { runStats } from '@/lib/commands/stats/run-stats'
import { seededRandom } from '@/lib/stats/random'

const root = fileURLToPath(new URL('../..', import.meta.url))
const stored = (name: string): string => readFileSync(`${root}test/reference/data/${name}`, 'utf8')

/** One call without a process; `files` stand in for the disk. */
async function call(argv: readonly string[], files: Readonly<Record<string, string | Uint8Array>> = {}) {
  let [out, err] = ['', '']
  const code = await runStats(argv, {
    read(path) {
      const content = files[path]
      if (content === undefined) throw new Error(`no file ${path}`)
      return typeof content === 'string' ? new TextEncoder().encode(content) : content
    },
    out: (text) => (out += text),
    err: (line) => (err += `${line}\n`),
  })
  return { code, out, err }
}

async function answer(argv: readonly string[], files: Readonly<Record<string, string | Uint8Array>> = {}) {
  const { code, out, err } = await call(argv, files)
  expect(err).toBe('')
  expect(code).toBe(0)
  return JSON.parse(out) as Record<string, unknown>
}

async function refusal(argv: readonly string[], files: Readonly<Record<string, string | Uint8Array>> = {}) {
  const { code, out, err } = await call(argv, files)
  expect([code, out]).toEqual([2, ''])
  expect(err.trimEnd().split('\n').length).toBe(1)
  return err.trimEnd()
}

/** The same rows in another order, columns turned round. */
function shuffled(csv: string, seed: number): string {
  const lines = csv.trimEnd().split(/\r?\n/)
  const turn = (line: string) => line.split(',').toReversed().join(',')
  const [header = '', ...rows] = lines
  return [turn(header), ...seededRandom(seed).shuffle(rows).map(turn)].join('\n')
}

const ham = stored('ham.csv')
const wine = stored('wine.csv')

const COMMON = ['verb', 'level', 'counts', 'method', 'notes']

/** Every verb with a file that it understands, and the keys its contract names. */
const CASES: readonly { argv: string[]; csv?: string; keys: string[] }[] = [
  {
    argv: ['acceptance', 'f'],
    csv: ham,
    keys: [
      'model',
      'overall',
      'cups',
      'plan',
      'claims',
      'pairs',
      'top',
      'groups',
      'control',
      'friedman',
      'agreement',
      'position',
      'carryOver',
    ],
  },
  {
    argv: ['ranking', 'f'],
    csv: 'taster,cup,rank\n1,a,1\n1,b,2\n1,c,3\n2,a,2\n2,b,1\n2,c,3\n3,a,1\n3,b,3\n3,c,2\n',
    keys: ['cups', 'friedman', 'leastSignificantDifference', 'pairs', 'page', 'worth'],
  },
  {
    argv: ['preference', 'f'],
    csv: 'taster,preferred,other\n1,a,b\n2,a,b\n3,b,a\n4,,a|b\n',
    keys: [
      'cup',
      'other',
      'preferred',
      'total',
      'none',
      'share',
      'pTwoSided',
      'pOneSided',
      'intervalExact',
      'intervalWilson',
      'criticalTwoSided',
      'intervalAnytime',
      'net',
      'pTrinomial',
    ],
  },
  {
    argv: ['preference', 'f'],
    csv: 'taster,preferred,other\n1,a,b\n1,b,c\n2,c,a\n2,b,a\n3,c,b\n',
    keys: ['worth', 'fit', 'ties'],
  },
  {
    argv: ['sequential', '--p1', '0.7', '--alpha', '0.05', '--beta', '0.1', '--max', '60', '--sequence', 'ABBA abA'],
    keys: ['decision', 'at', 'lines', 'exact'],
  },
  {
    argv: ['difference', '--protocol', 'triangle', '--correct', '20', '--total', '30', '--limit', '0.3'],
    keys: ['guessing', 'p', 'critical', 'proportionCorrect', 'distinguishing', 'dPrime', 'similarity'],
  },
  {
    argv: ['tasters', 'preference', '--share', '0.65', '--alpha', '0.05', '--power', '0.8'],
    keys: ['n', 'power', 'critical'],
  },
  {
    argv: ['orders', '--cups', '4', '--tasters', '6', '--seed', '1'],
    keys: ['orders', 'positionCounts', 'followCounts', 'pairCounts', 'efficiency'],
  },
  {
    argv: ['jar', 'f', '--attribute', 'jar_sweet', '--liking', 'liking9'],
    csv: stored('jar_example.csv'),
    keys: ['shares', 'justRight', 'tooLittle', 'tooMuch'],
  },
  {
    argv: ['check', 'f'],
    csv: 'taster,cup,term,checked\n1,a,floral,1\n1,b,floral,0\n2,a,floral,1\n2,b,floral,1\n3,a,floral,0\n3,b,floral,0\n',
    keys: ['terms'],
  },
  {
    argv: ['dose', 'f', '--dose', 'dose'],
    csv: stored('sweetness_doses.csv'),
    keys: ['coefficients', 'optimum', 'lackOfFit', 'shape'],
  },
  {
    argv: ['repeats', 'f'],
    csv: 'study,difference,se\nspring,0.4,0.2\nsummer,0.7,0.25\nautumn,0.3,0.15\n',
    keys: [
      'estimate',
      'se',
      'interval',
      'intervalHartungKnapp',
      'tauSquared',
      'Q',
      'df',
      'p',
      'iSquared',
      'prediction',
    ],
  },
  { argv: ['agreement', 'f', '--where', 'attribute=bitter5'], csv: wine, keys: ['icc', 'kendallW', 'tasters'] },
]

describe.each(CASES)('stats $argv', ({ argv, csv, keys }) => {
  const files: Record<string, string> = csv === undefined ? {} : { f: csv }

  test('answers with the keys of the contract', async () => {
    expect(Object.keys(await answer(argv, files))).toEqual(expect.arrayContaining([...COMMON, ...keys]))
  })

  test('reads the verb back, and the level asked for', async () => {
    const found = await answer(
      argv[0] === 'tasters' || argv[0] === 'sequential' ? argv : [...argv, '--level', '0.9'],
      files,
    )
    expect(found['verb']).toBe(argv[0])
    if (argv[0] !== 'tasters' && argv[0] !== 'sequential') expect(found['level']).toBe(0.9)
  })

  if (csv)
    test('no number depends on the order of rows or columns, a byte-order mark or the line ends', async () => {
      const plain = await call(argv, files)
      for (const seed of [1, 2]) expect(await call(argv, { f: shuffled(csv ?? '', seed) })).toEqual(plain)
      expect(await call(argv, { f: `\uFEFF${(csv ?? '').replaceAll('\n', '\r\n')}` })).toEqual(plain)
    })
})

describe('numbers from outside', () => {
  test('ham: the residual variance is the mean square of the analysis of variance, as in every balanced layout, within 1e-6', async () => {
    const rows = ham
      .trimEnd()
      .split('\n')
      .slice(1)
      .map((line) => line.split(','))
    const scores = new Map(rows.map(([taster, cup, , , score]) => [`${taster}/${cup}`, Number(score)]))
    const [tasters, cups] = [0, 1].map((at) => [...new Set(rows.map((row) => row[at] ?? ''))])
    const mean = (list: readonly number[]) => list.reduce((sum, one) => sum + one, 0) / list.length
    const of = (taster: string, cup: string) => scores.get(`${taster}/${cup}`) ?? NaN
    const all = mean([...scores.values()])
    let squares = 0
    for (const taster of tasters ?? []) {
      const own = mean((cups ?? []).map((cup) => of(taster, cup)))
      for (const cup of cups ?? []) {
        squares += (of(taster, cup) - own - mean((tasters ?? []).map((one) => of(one, cup))) + all) ** 2
      }
    }
    const residual = squares / (((tasters ?? []).length - 1) * ((cups ?? []).length - 1))
    const found = (await answer(['acceptance', 'f'], { f: ham })) as { model?: { variance: { residual: number } } }
    expect(Math.abs((found.model?.variance.residual ?? NaN) / residual - 1)).toBeLessThan(1e-6)
  })

  test('triangle, 20 of 30: d-prime 2.32138 (R 4.2.2, root of the triangle integral), within 1e-5', async () => {
    const argv = ['difference', '--protocol', 'triangle', '--correct', '20', '--total', '30']
    const found = (await answer(argv)) as { dPrime?: { estimate: number } }
    expect(Math.abs((found.dPrime?.estimate ?? NaN) - 2.32138)).toBeLessThan(1e-5)
  })
})

describe('options', () => {
  test('columns are renamed, rows kept with --where, values may stand after an equals sign', async () => {
    const csv = 'judge,product,liking,day\nx,a,5,mon\nx,b,6,mon\ny,a,4,mon\ny,b,7,mon\ny,a,1,tue\n'
    const argv = ['acceptance', 'f', '--taster', 'judge', '--cup=product', '--score', 'liking', '--where', 'day=mon']
    const found = await answer(argv, { f: csv })
    expect(found['counts']).toMatchObject({ tasters: 2, cups: 2, scores: 4, missing: 0 })
  })

  test('an empty cell is missing and counted, never zero', async () => {
    const csv = 'taster,cup,score\n1,a,5\n1,b,6\n2,a,\n2,b,7\n3,a,4\n3,b,"  "\n'
    expect((await answer(['acceptance', 'f'], { f: csv }))['counts']).toMatchObject({ scores: 4, missing: 2 })
  })

  test('labels sort naturally', async () => {
    const csv = 'taster,cup,score\n1,cup 10,5\n1,cup 2,6\n2,cup 10,3\n2,cup 2,7\n3,cup 2,4\n3,cup 10,4\n'
    const found = (await answer(['acceptance', 'f'], { f: csv })) as { cups?: { cup: string }[] }
    expect(found.cups?.map(({ cup }) => cup)).toEqual(['cup 2', 'cup 10'])
  })

  test('a quoted cell may hold commas, quotes and line breaks', async () => {
    const csv = 'taster,preferred,other\n1,"a, ""sweet""","b\n2"\n2,"a, ""sweet""","b\n2"\n'
    expect(await answer(['preference', 'f'], { f: csv })).toMatchObject({
      cup: 'a, "sweet"',
      other: 'b\n2',
      preferred: 2,
    })
  })

  test('preference takes counts in place of a file', async () => {
    expect(await answer(['preference', '--preferred', '19', '--total', '30', '--none', '4'])).toMatchObject({
      preferred: 19,
      total: 30,
      none: 4,
    })
  })

  test('sequential reads a file in the order of its rows and says who is a', async () => {
    const csv = 'preferred,other\nice,milk\nmilk,ice\nice,milk\n'
    const argv = ['sequential', 'f', '--p1', '0.7', '--alpha', '0.05', '--beta', '0.1', '--max', '60']
    const found = await answer(argv, { f: csv })
    expect(found['counts']).toMatchObject({ tasters: 3, preferA: 2, preferB: 1 })
    expect(found['notes']).toContain('a is ice, b is milk')
  })

  test('the same seed gives the same orders', async () => {
    const argv = ['orders', '--cups', '7', '--tasters', '9', '--seed', '77', '--per-taster', '3']
    expect(await call(argv)).toEqual(await call(argv))
    expect(
      (await answer(['orders', '--cups', '3', '--tasters', '2', '--seed', '1', '--duplicate', '2']))['notes'],
    ).toEqual(['cup 4 is cup 2 served a second time'])
  })
})

describe('help', () => {
  test('--help names every verb and the shared options, as text, with exit 0', async () => {
    const { code, out, err } = await call(['--help'])
    expect([code, err]).toEqual([0, ''])
    const verbs = readdirSync(`${root}lib/commands/stats/verbs`).map((file) => file.replace('.ts', ''))
    for (const name of [...verbs, '--level', '--where', '--by']) expect(out).toContain(name)
  })

  test('VERB --help names its columns and options', async () => {
    const { code, out } = await call(['acceptance', '--help'])
    expect(code).toBe(0)
    for (const name of ['taster, cup, score', '--plan', '--margin-level', '--skips', '--lowest', '--step', '--by']) {
      if (name !== '--skips') expect(out).toContain(name)
    }
    expect(out).toContain('skips')
    expect((await call(['tasters', '--help'])).out).toMatch(/not-worse.*\n[^]*--power/)
  })

  test('help of what is no verb is refused', async () => {
    expect(await refusal(['aceptance', '--help'])).toContain('did you mean acceptance?')
  })
})

describe('--by', () => {
  const two = 'day,taster,cup,score\nmon,1,a,5\nmon,1,b,6\nmon,2,a,4\nmon,2,b,7\ntue,1,a,2\ntue,1,b,1\n'

  test('one answer a line for each value, in the order of appearance, as --where would give it', async () => {
    const { code, out } = await call(['acceptance', 'f', '--by', 'attribute'], { f: wine })
    expect(code).toBe(0)
    const lines = out.trimEnd().split('\n')
    expect(lines.map((line) => (JSON.parse(line) as { by: string }).by)).toEqual(['bitter5', 'bitter100'])
    const alone = await answer(['acceptance', 'f', '--where', 'attribute=bitter100'], { f: wine })
    expect(JSON.parse(lines[1] ?? '')).toEqual({ by: 'bitter100', ...alone })
  })

  test('a value that cannot be used says so and the others go on', async () => {
    const broken = two.replace('tue,1,b,1', 'tue,1,b,many')
    const { code, out } = await call(['acceptance', 'f', '--by', 'day'], { f: broken })
    expect(code).toBe(0)
    const [first, second] = out.trimEnd().split('\n')
    expect(JSON.parse(first ?? '')).toMatchObject({ by: 'mon', verb: 'acceptance' })
    expect(JSON.parse(second ?? '')).toEqual({ by: 'tue', error: "f line 7, column score: 'many' is not a number" })
  })

  test('no value that can be used is exit 2', async () => {
    const broken = two.replaceAll(/,\d\n/g, ',x\n')
    expect(await refusal(['acceptance', 'f', '--by', 'day'], { f: broken })).toMatch(
      /no value of day.*'x' is not a number/,
    )
  })

  test('other verbs with a file part it too', async () => {
    const ranks = two.replace('score', 'rank')
    const { code, out } = await call(['ranking', 'f', '--by', 'day'], { f: ranks })
    expect([code, out.trimEnd().split('\n').length]).toEqual([0, 2])
  })

  test('a column that is not there, an empty cell in it, no file', async () => {
    expect(await refusal(['acceptance', 'f', '--by', 'dya'], { f: two })).toContain('did you mean day?')
    expect(await refusal(['acceptance', 'f', '--by', 'day'], { f: two.replace('tue', '') })).toContain(
      'line 6, column day: is empty',
    )
    expect(await refusal(['preference', '--preferred', '3', '--total', '9', '--by', 'day'])).toContain('needs a FILE')
  })
})

describe('acceptance plans', () => {
  const rows = [
    [5, 6, 7],
    [4, 6, 5],
    [6, 8, 7],
    [5, 5, 6],
    [3, 6, 6],
    [7, 8, 9],
  ].flatMap((row, i) => row.map((score, j) => `${i + 1},${'abc'[j]},${score},`))
  const eight = `taster,cup,score,why\n${rows.join('\n')}\n`

  test('against a control, one pair, all although there is a control', async () => {
    const against = await answer(['acceptance', 'f', '--control', 'b'], { f: eight })
    expect(against).toMatchObject({
      plan: { plan: 'against', pairs: 2 },
      top: null,
      groups: null,
      control: { cup: 'b' },
    })
    const pair = await answer(['acceptance', 'f', '--pair', 'c,a'], { f: eight })
    expect(pair).toMatchObject({
      plan: { plan: 'pair', pairs: 1 },
      claims: [{ a: 'a', b: 'c' }],
      counts: { scores: 12 },
    })
    const all = await answer(['acceptance', 'f', '--plan', 'all', '--control', 'b'], { f: eight })
    expect(all).toMatchObject({ plan: { plan: 'all', pairs: 3 }, control: { cup: 'b' } })
  })

  test('skips count as the lowest score in the second look only', async () => {
    const skipped = `${eight}7,a,5,\n7,b,,rather not\n8,a,5,\n8,b,,too sweet\n`
    const found = (await answer(['acceptance', 'f', '--plan', 'all', '--skips', 'why', '--lowest', '1'], {
      f: skipped,
    })) as {
      claims?: { ifSkipsLowest: { low: number } | null; low: number }[]
    }
    expect(found.claims?.[0]?.ifSkipsLowest?.low).not.toBe(found.claims?.[0]?.low)
    const without = await answer(['acceptance', 'f'], { f: skipped })
    expect(without).toMatchObject({ claims: [{ ifSkipsLowest: null }, {}, {}], counts: { missing: 2 } })
  })

  test.each([
    [['--plan', 'against'], '--plan against needs --control CUP'],
    [['--plan', 'pair'], '--plan pair needs --pair A,B'],
    [['--plan', 'al'], 'did you mean all?'],
    [['--pair', 'a'], "--pair 'a' must name two cups as A,B"],
    [['--pair', 'a,d'], "--pair 'd' is not a cup in the file"],
    [['--pair', 'a,b', '--plan', 'all'], '--pair goes with --plan pair'],
    [['--lowest', '1'], '--lowest goes with --skips'],
    [['--step', '-1'], 'a step must be 0 or above, got -1'],
    [['--margin', '1', '--margin-level', '90'], '--margin-level must lie between 0 and 1, got 90'],
    [['--skips', 'whi'], 'did you mean why?'],
  ])('%j is refused', async (more, line) => {
    expect(await refusal(['acceptance', 'f', ...more], { f: eight })).toContain(line)
  })
})

describe('bad input: exit 2, one line, no output', () => {
  const small = 'taster,cup,score\n1,a,5\n1,b,6\n2,a,4\n2,b,7\n'

  test.each<[string[], string | Uint8Array, string]>([
    [['acceptance', 'f'], 'taster,cup,score\n1,a,5\n1,b,abc\n', "f line 3, column score: 'abc' is not a number"],
    [['acceptance', 'f'], 'taster,cup,score\n1,a,5\n1,b,NaN\n', "f line 3, column score: 'NaN' is not a number"],
    [['acceptance', 'f'], 'taster,cup,score\n1,a,Infinity\n', "f line 2, column score: 'Infinity' is not a number"],
    [['acceptance', 'f'], 'taster,cup,score\n1,a,1e999\n', "f line 2, column score: '1e999' is too large for a number"],
    [
      ['acceptance', 'f'],
      'taster,cup,score\n1,a,"7,5"\n',
      "f line 2, column score: '7,5' is not a number; write it with a point",
    ],
    [['acceptance', 'f'], 'taster,cup,score\n1,a,0x10\n', "f line 2, column score: '0x10' is not a number"],
    [['acceptance', 'f'], 'taster,cup,score\n,a,5\n', 'f line 2, column taster: is empty; every row needs one'],
    [['acceptance', 'f'], 'taster,cup,score\n1,a,5\n1,b\n', 'f line 3, column 3: 2 cells where the header has 3'],
    [['acceptance', 'f'], 'taster,cup,cup\n', "f line 1, column 3: the header 'cup' stands in column 2 too"],
    [['acceptance', 'f'], 'taster,,score\n', 'f line 1, column 2: the header has no name'],
    [
      ['acceptance', 'f'],
      'taster,cup,scor\n1,a,5\n',
      'f line 1, column score: there is no such column for score; did you mean scor?',
    ],
    [['acceptance', 'f'], '', 'f: is empty'],
    [['acceptance', 'f'], 'taster,cup,score\n', 'f: there are no rows below the header'],
    [['acceptance', 'f'], 'taster,cup,score\n1,"a,5\n', 'f line 2: a quote is opened and not closed'],
    [['acceptance', 'f'], new Uint8Array([0x74, 0xff, 0xfe]), 'f: is not text in UTF-8'],
    [
      ['acceptance', 'f'],
      wine,
      "column attribute: 'bitter100' after 'bitter5'; attributes are not replicates, choose one with --where attribute=NAME",
    ],
    [
      ['acceptance', 'f', '--where', 'attribute=biter5'],
      wine,
      "f, column attribute: no row has 'biter5'; did you mean bitter5?",
    ],
    [
      ['acceptance', 'f', '--where', 'atribute=x'],
      wine,
      'f line 1, column atribute: there is no such column; did you mean attribute?',
    ],
    [['acceptance', 'f', '--where', 'attribute'], wine, "--where 'attribute' must read column=value"],
    [['acceptance', 'f', '--control', 'P1I'], ham, "f: --control 'P1I' is not a cup in the file; did you mean P1I1?"],
    [['acceptance', 'f', '--margin', '-1'], small, 'f: a margin must be above zero, got -1'],
    [
      ['acceptance', 'f', '--df', 'kenwardroger'],
      small,
      "--df: 'kenwardroger' is not known; did you mean kenward-roger?",
    ],
    [['acceptance', 'f', '--levle', '0.9'], small, '--levle is not an option here; did you mean --level?'],
    [['acceptance', 'f', '--level', '95'], small, '--level must lie between 0 and 1, got 95'],
    [['acceptance', 'f', '--level', 'high'], small, "--level: 'high' is not a number"],
    [['acceptance', 'f', '--level'], small, '--level needs a value'],
    [['acceptance', 'f', '--level', '0.9', '--level', '0.8'], small, '--level is given twice'],
    [['acceptance', 'f', 'g'], small, "acceptance does not know what to do with 'g'"],
    [['acceptance', 'missing.csv'], small, 'missing.csv: cannot be read'],
    [['acceptance'], small, 'acceptance needs a FILE, or - for standard input'],
    [['acceptance', 'f'], 'taster,cup,score\n1,a,5\n1,b,6\n2,c,4\n2,d,7\n', 'f: '],
    [['aceptance', 'f'], small, "'aceptance' is not a verb; did you mean acceptance?"],
    [['constructor'], small, "'constructor' is not a verb"],
    [[], small, 'use: npm run -s stats -- VERB'],
    [
      ['ranking', 'f'],
      'taster,cup,rank\n1,a,1\n1,b,2\n1,a,3\n',
      'f line 4, column rank: 1, a is answered in line 2 already',
    ],
    [['ranking', 'f', '--order', 'a,d'], 'taster,cup,rank\n1,a,1\n1,b,2\n', "f: --order 'd' is not a cup in the file"],
    [
      ['preference', 'f'],
      'taster,preferred,other\n1,a,b\n1,b,a\n',
      'f line 3, column taster: 1, a, b is answered in line 2 already',
    ],
    [['preference', 'f'], 'taster,preferred,other\n1,,a\n', "f line 2, column other: 'a' must name both cups as A|B"],
    [['preference'], small, 'preference needs a FILE, or - for standard input, or --total'],
    [['preference', '--total', '30'], small, '--preferred is needed'],
    [['preference', '--total', '30', '--preferred', '40'], small, '40'],
    [
      ['sequential', '--p1', '0.7', '--alpha', '0.05', '--beta', '0.1', '--max', '60', '--sequence', 'ABC'],
      small,
      "--sequence: 'C' at place 3 is neither A nor B",
    ],
    [
      ['sequential', 'f', '--p1', '0.7', '--alpha', '0.05', '--beta', '0.1', '--max', '60'],
      'preferred\na\nb\nc\n',
      "f line 4, column preferred: 'c' is a third cup beside a and b",
    ],
    [
      ['difference', '--protocol', 'tringle', '--correct', '3', '--total', '9'],
      small,
      "--protocol: 'tringle' is not known; did you mean triangle?",
    ],
    [['difference', '--protocol', 'triangle', '--correct', '10', '--total', '9'], small, 'got 10'],
    [['difference', '--correct', '10', '--total', '9'], small, '--protocol is needed: triangle'],
    [['tasters'], small, 'tasters needs to know for what: difference'],
    [['tasters', 'preferense'], small, "tasters 'preferense' is not known; did you mean preference?"],
    [
      ['tasters', 'preference', '--share', '0.6', '--n', '9', '--power', '0.8'],
      small,
      'tasters preference takes --power or --n, not both',
    ],
    [
      ['tasters', 'preference', '--share', '0.6', '--sd', '1', '--n', '9'],
      small,
      '--sd is not an option of tasters preference; nearest is --share',
    ],
    [
      ['orders', '--cups', '1', '--tasters', '4', '--seed', '1'],
      small,
      'cups must be a whole number from 2 to 15, got 1',
    ],
    [
      ['orders', '--cups', '4', '--tasters', '4', '--seed', '1.5'],
      small,
      'a seed must be a whole number of 32 bits, got 1.5',
    ],
    [['orders', '--cups', '4', '--tasters', '4'], small, '--seed is needed'],
    [
      ['orders', '--cups', '2', '--tasters', '4', '--seed', '1', '--duplicate', '1'],
      small,
      'a duplicate needs at least 3 cups, got 2',
    ],
    [['jar', 'f'], 'attribute,liking\n3,5\n6,5\n', "f line 3, column attribute: '6' is not 1, 2, 3, 4 or 5"],
    [['check', 'f'], 'taster,cup,term,checked\n1,a,floral,2\n', "f line 2, column checked: '2' is neither 0 nor 1"],
    [['dose', 'f'], 'taster,dose,score\n1,,5\n', 'f line 2, column dose: is empty'],
    [['repeats', 'f'], 'study,difference,se\nx,1,0\n', "f line 2, column se: '0' is not above zero"],
  ])('%j', async (argv, content, line) => {
    expect(await refusal(argv, { f: content })).toContain(line)
  })

  test('whatever a file holds, the answer is JSON with exit 0 or one line with exit 2', async () => {
    const cell = fc.oneof(fc.constantFrom('1', '2', '9', '', 'a', 'b', '"', '"x"', '1e5', '-3', ';', '\t'), fc.string())
    const file = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 12 })
    const verbs = fc.constantFrom('acceptance', 'ranking', 'agreement')
    await fc.assert(
      fc.asyncProperty(verbs, file, fc.boolean(), async (verb, rows, headed) => {
        const header = headed ? `taster,cup,${verb === 'ranking' ? 'rank' : 'score'}\n` : ''
        const { code, out, err } = await call([verb, 'f'], { f: header + rows.map((row) => row.join(',')).join('\n') })
        if (code === 0) expect(JSON.parse(out)).toMatchObject({ verb })
        else expect([code, out, err.endsWith('\n'), err.trimEnd().includes('\n')]).toEqual([2, '', true, false])
      }),
      { numRuns: 300 },
    )
  })

  test('our own faults are not put down to the input', async () => {
    const io = {
      read: () => new Uint8Array(),
      err: () => {},
      out: () => {
        throw new TypeError('disk full')
      },
    }
    await expect(runStats(['orders', '--cups', '2', '--tasters', '2', '--seed', '1'], io)).rejects.toThrow('disk full')
  })
})

describe('as a process', () => {
  const run = (argv: readonly string[]) =>
    promisify(execFile)('npm', ['run', '-s', 'stats', '--', ...argv], { cwd: root })

  test('a file in, one JSON object out, exit 0', async () => {
    const { stdout, stderr } = await run(['acceptance', 'test/reference/data/ham.csv'])
    expect(stderr).toBe('')
    expect(JSON.parse(stdout)).toMatchObject({ verb: 'acceptance', counts: { tasters: 81, cups: 8, scores: 648 } })
  })

  test('standard input, and exit 2 with one line', async () => {
    const child = run(['ranking', '-'])
    child.child.stdin?.end('taster,cup,rank\n1,a,first\n')
    await expect(child).rejects.toMatchObject({
      code: 2,
      stdout: '',
      stderr: "standard input line 2, column rank: 'first' is not a number\n",
    })
  })
})

describe('what cannot be answered in seconds is refused before anything is computed', () => {
  /** Rows without end would do as well: a refusal that came after the work would not come. */
  const rowsOf = (tasters: number, cups: number) =>
    Array.from({ length: tasters * cups }, (_, at) => `t${at % tasters},c${Math.floor(at / tasters)},${1 + (at % 9)}`)
  const scores = (tasters: number, cups: number) => ['taster,cup,score', ...rowsOf(tasters, cups)].join('\n')
  const patchwork = (tasters: number) =>
    [
      'taster,cup,rank',
      ...Array.from({ length: tasters }, (_, at) => `t${at},c${at % 3},1\nt${at},c${(at + 1) % 3},2`),
    ].join('\n')

  test.each([
    [
      'a header of 200 000 columns',
      ['acceptance'],
      `taster,cup,score,${Array.from({ length: 200_000 }, (_, at) => `x${at}`).join(',')}\n`,
      'f line 1, column 1001: the header has 200003 columns; 1000 are the most',
    ],
    [
      '5 tasters × 1 500 cups',
      ['acceptance'],
      scores(5, 1500),
      "f line 152, column cup: 'c30' is one more than the 30 that can be compared",
    ],
    [
      'a cup too many in the parts together',
      ['acceptance', '--by', 'part'],
      [
        'part,taster,cup,score',
        ...Array.from({ length: 11 }, (_, part) => rowsOf(2, 30).map((row) => `p${part},${row}`)).flat(),
      ].join('\n'),
      'f: the parts of --by have 330 different values of cup together; 300 are the most',
    ],
    ['a file of 33 MB', ['acceptance'], new Uint8Array(33 * 2 ** 20), 'f: is 33 MB; a file may be 32 MB at most'],
    [
      'six million cells',
      ['jar'],
      `attribute,liking${Array.from({ length: 998 }, (_, at) => `,x${at}`).join('')}\n${`${','.repeat(999)}\n`.repeat(6000)}`,
      'f line 5001: 6001 rows of 1000 columns; with so many, 5000 are the most',
    ],
    [
      'many tasters who ranked some cups',
      ['ranking'],
      patchwork(201),
      'f: not all of the 201 tasters ranked every cup; 200 are the most then',
    ],
  ] as const)('%s', async (_, [verb, ...more], file, says) => {
    expect(await refusal([verb, 'f', ...more], { f: file })).toBe(says)
  })

  test('what a large house has is answered', async () => {
    expect(await answer(['ranking', 'f'], { f: patchwork(60) })).toMatchObject({ counts: { tasters: 60 } })
    expect(await answer(['acceptance', 'f'], { f: scores(200, 30) })).toMatchObject({
      counts: { tasters: 200, cups: 30 },
    })
  })

  test.each([
    [
      ['preference', '--preferred', '4e7', '--total', '1e8', '--none', '1e7'],
      '--total may be 1000000 at most beside --none, got 1e8',
    ],
    [
      ['rehearse', '--cups', '15', '--tasters', '1000', '--sd', '1', '--difference', '1', '--panels', '100000'],
      '--panels may be 4444 at most for so many tasters and cups, got 100000',
    ],
    [
      ['rehearse', '--cups', '15', '--tasters', '200', '--sd', '1', '--difference', '1', '--absent', '0.1'],
      '--panels may be 222 at most for so many tasters and cups where some go unscored, got 2000',
    ],
  ])('%j', async (words, says) => {
    expect(await refusal(words)).toBe(says)
  })
})
