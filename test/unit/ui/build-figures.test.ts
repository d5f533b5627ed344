/** What nothing melts into has no figures of a melt. Which rows there are is our own rule, no source. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { BuildFiguresView, figureCount } from '@/app/ui/build-figures'
import { computeBuild } from '@/lib/drink/build'
import { aTrial, grounds, ice, water } from '../../support/drink-lines'

const hot = aTrial([grounds(15), water(30, { temperature: 80 })])
const cold = aTrial([grounds(15), ice(100)])
const drawn = (build: typeof hot, iced: boolean) =>
  renderToStaticMarkup(
    createElement(BuildFiguresView, { figures: computeBuild(build), currency: 'EUR', vessel: null, iced }),
  )

test('a hot drink lists its coffee solids and how warm it is poured, and nothing of ice', () => {
  expect(drawn(hot, false)).not.toMatch(/meltwater|ice (melt|has)/i)
  expect(drawn(hot, false)).toMatch(/temperature when poured/i)
  expect(drawn(hot, false)).toMatch(/coffee solids;/i)
})

test('an iced one lists the melt over twenty minutes', () => {
  expect(drawn(cold, true)).toMatch(/meltwater after 20 minutes/i)
  expect(drawn(cold, true)).toMatch(/coffee solids before any ice melts/i)
  const figures = computeBuild(cold)
  expect(figureCount(figures, true)).toBeGreaterThanOrEqual(figureCount(figures, false))
})
