/** One question on a connection of its own: a kept one may be closed by the server at the moment it is used again. */
export function ask(url: string, init: RequestInit = {}): Promise<Response> {
  return fetch(url, { ...init, headers: { ...init.headers, connection: 'close' } })
}
