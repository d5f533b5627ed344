import { memberOr } from '@/lib/auth/guard'
import { readPhoto } from '@/lib/tasks/photo/read-photos'
import { theWorld } from '@/lib/tasks/world'

/** Kept by the browser of whoever may see it alone, and asked for again: it may have been taken out. */
export async function GET(_request: Request, { params }: { params: Promise<{ photoId: string }> }): Promise<Response> {
  const member = await memberOr('recipe:read')
  if (member instanceof Response) return member
  const photo = await readPhoto(theWorld(), member, (await params).photoId)
  if (!photo) return new Response('This photo is not there.', { status: 404 })
  return new Response(new Uint8Array(photo.bytes), {
    headers: {
      'content-type': photo.type,
      'content-length': String(photo.bytes.length),
      'content-disposition': 'inline',
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-cache',
    },
  })
}
