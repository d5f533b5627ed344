import { afterEach, beforeEach } from 'vitest'

/**
 * For a file whose tests are steps of one story: after a step that failed the next ones have nothing to stand on, and
 * each would wait for what never comes.
 */
export function tellInOrder(): void {
  let isBroken = false
  beforeEach(({ skip }) => {
    if (isBroken) skip('a step before it failed')
  })
  afterEach(({ task }) => {
    isBroken ||= task.result?.state === 'fail'
  })
}
