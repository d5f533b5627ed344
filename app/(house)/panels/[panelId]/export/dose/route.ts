import { memberOr } from '@/lib/auth/guard'
import { exportDose } from '@/lib/tasks/result/read-dose'
import { theWorld } from '@/lib/tasks/world'
import { fileAnswer, notBeforeClosing } from '@/app/ui/file-answer'

export async function GET(_request: Request, { params }: { params: Promise<{ panelId: string }> }): Promise<Response> {
  const member = await memberOr('export')
  if (member instanceof Response) return member
  const { panelId } = await params
  const content = await exportDose(theWorld(), member, panelId)
  return content === null ? notBeforeClosing() : fileAnswer(content, 'sipwright-dose.csv', 'text/csv')
}
