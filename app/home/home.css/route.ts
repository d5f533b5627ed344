import { builtFile } from '@/app/taste/built-file'
import { guardFaults } from '@/app/taste/guard-faults'
import { textReply } from '@/app/taste/respond'
import { openDoor } from '@/lib/auth/guard'

export const GET = guardFaults(async () => {
  openDoor('the same style for everybody')
  return textReply(await builtFile('home.css'), 'text/css')
})
