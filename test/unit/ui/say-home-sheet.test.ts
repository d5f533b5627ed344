import { expect, test } from 'vitest'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { HomeSheet } from '@/app/home/home-sheet'
import { sayHomeSheet } from '@/app/home/say-home-sheet'
import { sheetMarkup } from '@/app/home/sheet-markup'

const made = { outputGrams: null, brix: null, celsius: 4, keepsHours: null, steps: [] }
const sugar = { name: 'Sugar', grams: 500, ml: null, assumedDensity: null, home: null, isMade: false, celsius: null }

test('a preparation that nobody wrote down has no empty table, and says so', () => {
  const words = sayHomeSheet(
    {
      version: 1,
      createdAt: new Date('2026-03-01T08:00:00Z'),
      mark: 'BCDF-GHJK',
      today: null,
      unreadable: false,
      superseded: null,
      content: {
        kind: 'sipwright-home-sheet',
        form: 1,
        cafe: 'Ferry Steps',
        recipe: 'Iced date coffee',
        trial: { number: 1, name: '20 g syrup' },
        standing: 'trial',
        houseVersion: null,
        tasted: false,
        method: 'poured',
        vessel: null,
        lines: [],
        steps: [],
        made: [
          { name: 'Date syrup', inputs: [], ...made },
          { name: 'Plain syrup', inputs: [sugar], ...made },
        ],
        warnings: {
          list: 'EU list',
          contains: [],
          mayContain: [],
          unread: [],
          cautions: [],
          caffeine: { known: true, low: 0, high: 0 },
        },
      },
    },
    'UTC',
  )
  expect(words.made[0]?.notes[0]).toBe('What goes into it is not written down: ask the café.')
  expect(words.made[1]?.notes).toEqual(['Keep it at 4 °C or colder.'])
  const pages = [renderToStaticMarkup(createElement(HomeSheet, { words, likingWords: [] })), sheetMarkup(words).text]
  for (const page of pages) expect(page.match(/As the house makes it/g)).toHaveLength(1)
})
