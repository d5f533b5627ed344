import { html, type Markup } from './html'

/** What every answer to a taster's device carries: nothing is kept, nothing is sent on, nothing foreign runs. */
const guarded = {
  'cache-control': 'no-store',
  'referrer-policy': 'no-referrer',
  'x-content-type-options': 'nosniff',
  'x-robots-tag': 'noindex, nofollow',
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "style-src-attr 'none'",
    "connect-src 'self'",
    "img-src 'self' data:",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
}

export type Sent = {
  readonly status?: number
  readonly cookies?: readonly string[]
  /** seconds after which to ask again */
  readonly retryAfter?: number
  /** address of its style, where it is not the phone's */
  readonly style?: string
}

function headersOf(more: Record<string, string>, cookies: readonly string[] = []): Headers {
  const headers = new Headers({ ...guarded, ...more })
  for (const cookie of cookies) headers.append('set-cookie', cookie)
  return headers
}

export function pageReply(
  title: string,
  body: Markup,
  { status = 200, cookies, retryAfter, style = '/taste/taste.css' }: Sent = {},
): Response {
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="theme-color" content="#faf7f2" media="(prefers-color-scheme: light)" />
        <meta name="theme-color" content="#171512" media="(prefers-color-scheme: dark)" />
        <title>${title}</title>
        <link rel="icon" href="data:," />
        <link rel="stylesheet" href="${style}" />
      </head>
      <body>
        ${body}
      </body>
    </html> `
  return new Response(page.text.replace(/\n\s+/g, '\n'), {
    status,
    headers: headersOf(
      {
        'content-type': 'text/html; charset=utf-8',
        ...(retryAfter === undefined ? {} : { 'retry-after': String(retryAfter) }),
      },
      cookies,
    ),
  })
}

export function jsonReply(value: unknown, status = 200): Response {
  return new Response(JSON.stringify(value), {
    status,
    headers: headersOf({ 'content-type': 'application/json; charset=utf-8' }),
  })
}

export function textReply(text: string, type: string): Response {
  return new Response(text, { headers: headersOf({ 'content-type': `${type}; charset=utf-8` }) })
}

/** On to another page of ours, whatever name the phone knows this machine by. */
export function seeOther(path: string, cookies: readonly string[] = []): Response {
  return new Response(null, { status: 303, headers: headersOf({ location: path }, cookies) })
}
