/**
 * First come, first served. Pages and answers share one thread: let in all at once, a crowd is served in no order, and
 * who came first may wait longest.
 *
 * @typedef {object} QueueLimits
 * @property {number} atOnce  how many are served beside each other
 * @property {number} waitMs  who has waited so long is sent away, with a word
 * @property {number} lendMs  a place is lent for so long: who reads slowly does not hold up the others
 * @property {number} longest  who finds so many waiting is sent away at once
 */

/** @type {Readonly<QueueLimits>} */
export const QUEUE_LIMITS = Object.freeze({ atOnce: 8, waitMs: 4000, lendMs: 10_000, longest: 1000 })

/** @param {Readonly<QueueLimits>} limits */
export function openQueue({ atOnce, waitMs, lendMs, longest }) {
  /** @typedef {{ job: () => Promise<void>, settle: (how: 'served' | 'busy') => void, fail: (error: unknown) => void, timer: NodeJS.Timeout }} Waiting */
  /** @type {Set<Waiting>} */
  const waiting = new Set() // a Set keeps its order, and who gives up leaves it at once
  let lent = 0

  /** @param {Pick<Waiting, 'job' | 'settle' | 'fail'>} one */
  function start({ job, settle, fail }) {
    lent++
    let isLent = true
    const giveBack = () => {
      if (!isLent) return
      isLent = false
      clearTimeout(timer)
      lent--
      next()
    }
    const timer = setTimeout(giveBack, lendMs)
    job()
      .then(() => settle('served'), fail)
      .finally(giveBack)
  }

  function next() {
    for (const one of waiting) {
      if (lent >= atOnce) return
      waiting.delete(one)
      clearTimeout(one.timer)
      start(one)
    }
  }

  return {
    /**
     * Does the job when its turn has come, or not at all.
     *
     * @param {() => Promise<void>} job
     * @returns {Promise<'served' | 'busy'>}
     * @throws what the job throws
     */
    run(job) {
      return new Promise((resolve, reject) => {
        if (waiting.size >= longest) return resolve('busy')
        if (lent < atOnce && waiting.size === 0) return start({ job, settle: resolve, fail: reject })
        const one = {
          job,
          settle: resolve,
          fail: reject,
          timer: setTimeout(() => {
            waiting.delete(one)
            resolve('busy')
          }, waitMs),
        }
        waiting.add(one)
      })
    },
  }
}
