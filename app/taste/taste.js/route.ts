import { builtFile } from '../built-file'
import { guardFaults } from '../guard-faults'
import { textReply } from '../respond'

export const GET = guardFaults(async () => textReply(await builtFile('taste.js'), 'text/javascript'))
