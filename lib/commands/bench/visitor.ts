/** A browser of a kind: keeps cookies, follows nothing, on loopback only. */
export class Visitor {
  readonly #cookies = new Map<string, string>()

  constructor(readonly address: string) {}

  async ask(path: string, init: RequestInit = {}): Promise<Response> {
    const headers = new Headers(init.headers)
    // a kept-alive connection may be closed by the server at the moment it is used again, which is no answer at all
    headers.set('connection', 'close')
    headers.set('cookie', [...this.#cookies].map(([name, value]) => `${name}=${value}`).join('; '))
    const answer = await fetch(`${this.address}${path}`, { ...init, headers, redirect: 'manual' })
    for (const line of answer.headers.getSetCookie()) {
      const [name = '', ...value] = (line.split(';', 1)[0] ?? '').split('=')
      this.#cookies.set(name, value.join('='))
    }
    return answer
  }

  /** what it holds, for a real browser that goes on in its place */
  cookies(): { readonly name: string; readonly value: string }[] {
    return [...this.#cookies].map(([name, value]) => ({ name, value }))
  }

  post(path: string, body: URLSearchParams | FormData | object, init: RequestInit = {}): Promise<Response> {
    return body instanceof URLSearchParams || body instanceof FormData
      ? this.ask(path, { ...init, method: 'POST', body })
      : this.ask(path, {
          ...init,
          method: 'POST',
          body: JSON.stringify(body),
          headers: { 'content-type': 'application/json' },
        })
  }

  async signIn(email: string, password: string): Promise<void> {
    const { csrfToken } = (await (await this.ask('/api/auth/csrf')).json()) as { csrfToken: string }
    const form = new URLSearchParams({ csrfToken, email, password, json: 'true' })
    const answer = await this.post('/api/auth/callback/credentials', form)
    if (!answer.ok && answer.status !== 302) throw new Error(`signing in was refused with ${answer.status}`)
  }
}
