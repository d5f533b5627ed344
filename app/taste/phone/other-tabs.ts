import type { Parcel } from './parcel'

/** What one page of a seat tells the others of the same browser. */
export type Word =
  /** tapped here, and kept to be sent */
  | { readonly kind: 'kept'; readonly message: Parcel['message'] }
  /** the café's computer knows something else than was shown here: ask it */
  | { readonly kind: 'look' }

/** Every other page of this browser that sits at the same seat. */
export interface OtherTabs {
  tell(word: Word): void
  listen(hear: (word: Word) => void): void
}

/** Where the browser knows no such channel, each page learns the rest from the café's answers and when it wakes. */
export function openOtherTabs(sitting: string): OtherTabs {
  if (typeof BroadcastChannel === 'undefined') return { tell() {}, listen() {} }
  const channel = new BroadcastChannel(`taster ${sitting}`)
  return {
    tell: (word) => channel.postMessage(word),
    listen: (hear) => channel.addEventListener('message', ({ data }) => hear(data as Word)),
  }
}
