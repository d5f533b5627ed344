import 'server-only'
// The whole of a worker thread: `lib/commands/worker-bundle.mjs` makes one file of it beside the build.
import { parentPort, workerData } from 'node:worker_threads'
import { playPlan, type PlanQuestion } from './play-plan'

parentPort?.postMessage(playPlan(workerData as PlanQuestion))
