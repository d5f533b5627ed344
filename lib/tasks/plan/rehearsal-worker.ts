import 'server-only'
// The whole of a worker thread: `lib/commands/worker-bundle.mjs` makes one file of it beside the build.
import { constants, setPriority } from 'node:os'
import { parentPort, workerData } from 'node:worker_threads'
import { playPlan, type PlanQuestion } from './play-plan'

// Phones come first. On Linux this speaks of the calling thread alone; elsewhere it would slow the whole server.
if (process.platform === 'linux') setPriority(constants.priority.PRIORITY_LOW)

parentPort?.postMessage(playPlan(workerData as PlanQuestion))
