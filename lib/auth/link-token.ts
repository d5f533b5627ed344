import 'server-only'
import { createHash } from 'node:crypto'

/** Only this fingerprint of a secret token is kept. The token has 256 random bits, so a plain hash cannot be searched. */
export function hashToken(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}
