/** A warning or an error that nobody expected fails the test that caused it. */
import { afterEach, beforeEach, vi } from 'vitest'

const loud = ['warn', 'error'] as const

beforeEach(() => {
  for (const level of loud) {
    vi.spyOn(console, level).mockImplementation((...words: unknown[]) => {
      throw new Error(`unexpected console.${level}: ${words.map(String).join(' ')}`)
    })
  }
})

afterEach(() => {
  vi.restoreAllMocks()
})
