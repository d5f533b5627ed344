/** What a taster ticks before the first cup: on the phone, on a printed ballot, and once more where that is typed in. */
export const DOOR_TICKS = {
  unaffected: 'I have read this, and none of it concerns me.',
  consent: 'I take part of my own will.',
  unseen: 'I have not seen which drink is in which jug, and I did not pour.',
} as const
