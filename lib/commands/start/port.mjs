import { createServer, connect } from 'node:net'
import { setTimeout as wait } from 'node:timers/promises'
import { StartFailure, systemCode } from './say.mjs'

/** A server that was ended by force has its port until the last of its threads is gone, a moment after it is seen to be dead. */
const TRIES = 20
const BETWEEN_MS = 100

/**
 * Fails in one line when the app could not listen there, also after waiting for a moment.
 *
 * @param {number} port
 * @param {() => Promise<unknown>} [moment]
 */
export async function checkPort(port, moment = () => wait(BETWEEN_MS)) {
  let error = await tryPort(port)
  for (let more = TRIES; more > 0 && systemCode(error) === 'EADDRINUSE'; more--) {
    await moment()
    error = await tryPort(port)
  }
  switch (systemCode(error)) {
    case '':
      return
    case 'EADDRINUSE':
      throw new StartFailure(
        `Port ${port} is used by another program: stop that one, or choose another port: PORT=${port + 1} npm start`,
      )
    case 'EACCES':
      throw new StartFailure(`Port ${port} is reserved for the system: choose one from 1024 up: PORT=3000 npm start`)
    default:
      throw new StartFailure(
        `Port ${port} cannot be listened on (${systemCode(error)}): choose another: PORT=3000 npm start`,
      )
  }
}

/**
 * @param {number} port
 * @returns {Promise<unknown>} why nobody can listen there; null when one can
 */
function tryPort(port) {
  return new Promise((resolve) => {
    const probe = createServer()
    probe.once('error', resolve)
    probe.listen(port, () => probe.close(() => resolve(null)))
  })
}

/**
 * Waits until something answers on the port.
 *
 * @param {number} port
 * @param {AbortSignal} stop  gives up when the server has ended
 * @returns {Promise<boolean>} false when given up
 */
export async function portAnswers(port, stop) {
  while (!stop.aborted) {
    const isThere = await new Promise((resolve) => {
      const socket = connect({ port, host: 'localhost' })
      socket.once('connect', () => {
        socket.destroy()
        resolve(true)
      })
      socket.once('error', () => resolve(false))
    })
    if (isThere) return true
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
  return false
}
