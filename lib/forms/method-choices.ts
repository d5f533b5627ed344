import { methods as known } from '@/lib/drink/method'

/** The methods as a form offers them. */
export const methods = known.map((method) => ({ value: method.id, words: method.words }))
