import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { openQueue } from '@/lib/commands/door/queue.mjs'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

const limits = { atOnce: 2, waitMs: 4000, lendMs: 10_000, longest: 3 }

/** A job that ends when it is told to. */
function held(name: string, log: string[]) {
  let end = () => {}
  const until = new Promise<void>((resolve) => (end = resolve))
  const job = () => {
    log.push(name)
    return until
  }
  return { job, end }
}

test('served in the order of arrival, so many beside each other', async () => {
  const queue = openQueue(limits)
  const log: string[] = []
  const jobs = ['a', 'b', 'c', 'd', 'e'].map((name) => held(name, log))
  const all = jobs.map(({ job }) => queue.run(job))
  expect(log).toEqual(['a', 'b'])
  jobs[1]?.end()
  await all[1]
  await Promise.resolve()
  expect(log).toEqual(['a', 'b', 'c'])
  for (const { end } of jobs) end()
  expect(await Promise.all(all)).toEqual(Array(5).fill('served'))
  expect(log).toEqual(['a', 'b', 'c', 'd', 'e'])
})

test('who has waited four seconds is sent away, and who finds the queue full at once; both undone', async () => {
  const queue = openQueue(limits)
  const log: string[] = []
  const jobs = ['a', 'b', 'c', 'd', 'e'].map((name) => held(name, log))
  const all = jobs.map(({ job }) => queue.run(job))
  expect(await queue.run(held('too many', log).job)).toBe('busy')
  vi.advanceTimersByTime(3999)
  jobs[0]?.end()
  await all[0]
  await Promise.resolve()
  expect(log).toEqual(['a', 'b', 'c'])
  vi.advanceTimersByTime(1)
  expect(await Promise.all([all[3], all[4]])).toEqual(['busy', 'busy'])
  expect(log).toEqual(['a', 'b', 'c'])
})

test('who takes ten seconds no longer holds up the others, and is answered all the same', async () => {
  const queue = openQueue({ ...limits, atOnce: 1, waitMs: 60_000 })
  const log: string[] = []
  const [slow, next] = [held('slow', log), held('next', log)]
  const first = queue.run(slow.job)
  const second = queue.run(next.job)
  vi.advanceTimersByTime(10_000)
  expect(log).toEqual(['slow', 'next'])
  slow.end()
  expect(await first).toBe('served')
  const third = held('third', log)
  void queue.run(third.job)
  expect(log).not.toContain('third') // the place of the slow one was given back once, not twice
  next.end()
  await second
  await vi.waitFor(() => expect(log).toContain('third'))
})

test('a job that fails gives its place back, and its error to whoever asked', async () => {
  const queue = openQueue({ ...limits, atOnce: 1 })
  await expect(queue.run(() => Promise.reject(new Error('no disk')))).rejects.toThrow('no disk')
  expect(await queue.run(() => Promise.resolve())).toBe('served')
})
