import type { ZodType } from 'zod'
import { jsonReply } from './respond'

const LONGEST = 8192

/**
 * Reads a phone's message at the door, or gives the reply that refuses it. Only `application/json` is read: another
 * site's form cannot send that without being asked first.
 */
export async function readMessage<Value>(request: Request, schema: ZodType<Value>): Promise<Value | Response> {
  const unreadable = () => jsonReply({ reason: 'unreadable', words: 'This answer could not be read.' }, 422)
  if (!(request.headers.get('content-type') ?? '').startsWith('application/json')) return unreadable()
  const text = await request.text()
  if (text.length > LONGEST) return unreadable()
  try {
    const read = schema.safeParse(JSON.parse(text))
    return read.success ? read.data : unreadable()
  } catch (error) {
    if (error instanceof SyntaxError) return unreadable()
    throw error
  }
}

/** What was typed into a form of plain HTML; null where no form came. */
export async function readTyped(request: Request): Promise<FormData | null> {
  try {
    return await request.formData()
  } catch (error) {
    // what the platform throws at a body that is no form, or a broken one
    if (error instanceof TypeError) return null
    throw error
  }
}
