import { openDoor } from '@/lib/auth/guard'
import { builtFile } from '../built-file'
import { guardFaults } from '../guard-faults'
import { textReply } from '../respond'

export const GET = guardFaults(async () => {
  openDoor('the same style for everybody')
  return textReply(await builtFile('taste.css'), 'text/css')
})
