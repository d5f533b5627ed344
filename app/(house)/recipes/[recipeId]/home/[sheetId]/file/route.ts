import { memberOr } from '@/lib/auth/guard'
import { readHomeSheet } from '@/lib/tasks/home/read-home-sheet'
import { theWorld } from '@/lib/tasks/world'
import { homeFile } from '@/app/home/file/home-file'
import { sayHomeSheet } from '@/app/home/say-home-sheet'
import { builtFile } from '@/app/taste/built-file'
import { fileAnswer } from '@/app/ui/file-answer'

interface Context {
  readonly params: Promise<{ readonly recipeId: string; readonly sheetId: string }>
}

/** The sheet as one file that opens anywhere. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const member = await memberOr('recipe:write')
  if (member instanceof Response) return member
  const { recipeId, sheetId } = await params
  const found = await readHomeSheet(theWorld(), member, sheetId)
  if (!found || found.recipe.id !== recipeId) return new Response('This sheet is not there.', { status: 404 })
  if (!found.givenOut) return new Response('This sheet is not given out any more.', { status: 409 })
  const [script, style] = await Promise.all([builtFile('home.js'), builtFile('home.css')])
  const file = homeFile(sayHomeSheet(found.sheet, member.cafe.timeZone), { script, style })
  return fileAnswer(file, `${found.recipe.name}-sheet-${found.sheet.version}.html`, 'text/html')
}
