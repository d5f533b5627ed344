import { memberOr } from '@/lib/auth/guard'
import { exportJustRight } from '@/lib/tasks/result/export-further'
import { theWorld } from '@/lib/tasks/world'
import { fileAnswer, notBeforeClosing } from '@/app/ui/file-answer'

export async function GET(_request: Request, { params }: { params: Promise<{ panelId: string }> }): Promise<Response> {
  const member = await memberOr('export')
  if (member instanceof Response) return member
  const { panelId } = await params
  const content = await exportJustRight(theWorld(), member, panelId)
  return content === null ? notBeforeClosing() : fileAnswer(content, 'sipwright-just-right.csv', 'text/csv')
}
