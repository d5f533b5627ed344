/** A file to keep, named in plain words, never cached on the way. */
export function fileAnswer(
  content: string,
  name: string,
  type: 'text/csv' | 'text/plain' | 'text/html' | 'application/json',
): Response {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\w.-]+/g, '-')
    .replace(/-+/g, '-')
  return new Response(content, {
    headers: {
      'Content-Type': `${type}; charset=utf-8`,
      'Content-Disposition': `attachment; filename="${plain}"`,
      'Cache-Control': 'no-store',
    },
  })
}

export function notBeforeClosing(): Response {
  return new Response('Scores can be taken away once the panel is closed.', { status: 409 })
}
