import { readDose } from '@/lib/tasks/result/read-dose'
import { readMemory } from '@/lib/tasks/result/read-memory'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { readResultGlasses } from '@/lib/tasks/result/read-result-glasses'
import { listShared } from '@/lib/tasks/result/share-result'
import type { Reader, World } from '@/lib/tasks/world'

/** What stands around a result: its glasses, other panels, links, and how to compute it again. */
export async function readAround(world: World, reader: Reader, panelId: string) {
  const [glasses, again, memory, shared, dose] = await Promise.all([
    readResultGlasses(world, reader, panelId),
    readReproduced(world, reader, panelId),
    readMemory(world, reader, panelId),
    listShared(world, reader, panelId),
    readDose(world, reader, panelId),
  ])
  return { glasses, again, memory, shared, dose }
}
