import { memberOr } from '@/lib/auth/guard'
import { readReproduced } from '@/lib/tasks/result/read-reproduced'
import { theWorld } from '@/lib/tasks/world'
import { fileAnswer, notBeforeClosing } from '@/app/ui/file-answer'

export async function GET(_request: Request, { params }: { params: Promise<{ panelId: string }> }): Promise<Response> {
  const member = await memberOr('export')
  if (member instanceof Response) return member
  const { panelId } = await params
  const found = await readReproduced(theWorld(), member, panelId)
  return found === null ? notBeforeClosing() : fileAnswer(found.script, 'sipwright-panel.R', 'text/plain')
}
