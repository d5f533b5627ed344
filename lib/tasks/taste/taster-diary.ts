import 'server-only'
import type { Tx } from '@/lib/db/engine/client'
import { writeAudit, type AuditEntry } from '@/lib/db/audit'
import type { World } from '../world'

/** The diary line for what a taster's device did, inside the act's own transaction. Never says what was scored. */
export async function noteTaster(
  world: World,
  tx: Tx,
  entry: Pick<AuditEntry, 'cafeId' | 'at' | 'act' | 'subjectKind' | 'subjectId' | 'detail'>,
): Promise<void> {
  await writeAudit(tx, { ...entry, id: world.id(), actor: { kind: 'taster' } })
}
