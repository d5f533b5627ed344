import { memberOr } from '@/lib/auth/guard'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { theWorld } from '@/lib/tasks/world'
import { fileAnswer } from '@/app/ui/file-answer'

export async function GET(_request: Request, { params }: { params: Promise<{ trialId: string }> }): Promise<Response> {
  const member = await memberOr('recipe:read')
  if (member instanceof Response) return member
  const { trialId } = await params
  const file = await exportTrial(theWorld(), member, trialId)
  if (!file) return new Response('This trial is not there.', { status: 404 })
  if (file.fault !== null)
    return new Response(`This trial is no file yet that can be read again. To be mended first: ${file.fault}`, {
      status: 409,
    })
  return fileAnswer(file.content, `sipwright-trial-${file.number}.json`, 'application/json')
}
