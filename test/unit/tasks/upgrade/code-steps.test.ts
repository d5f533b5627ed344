import { readdirSync } from 'node:fs'
import { expect, test } from 'vitest'
import { listMigrations, needsCode } from '@/lib/db/engine/schema-engine'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'

test('every migration that asks for code has its step, and no step is there for another', () => {
  expect(Object.keys(codeSteps).toSorted()).toEqual(listMigrations().filter(needsCode))
})

test('each step has a file of its migration’s name', () => {
  const files = readdirSync('lib/tasks/upgrade').filter((file) => /^\d{4}-/.test(file))
  expect(files).toEqual(
    Object.keys(codeSteps)
      .toSorted()
      .map((name) => `${name}.ts`),
  )
})
