import { openDoor } from '@/lib/auth/guard'
import { cardRule, isCardSize, sheetRule } from '../ui/page-rule'

/** How a page is printed that says so in the address: `?foot=WORDS`, with `&turn=landscape` for a wide table, or `?card=SIZE`. */
export function GET(request: Request): Response {
  openDoor('it says nothing but what it was asked with')
  const { searchParams } = new URL(request.url)
  const card = searchParams.get('card') ?? ''
  const rule = isCardSize(card)
    ? cardRule(card)
    : sheetRule(searchParams.get('foot') ?? '', searchParams.get('turn') === 'landscape')
  return new Response(rule, {
    headers: { 'content-type': 'text/css; charset=utf-8', 'cache-control': 'private, max-age=3600' },
  })
}
