interface Cafe {
  readonly name: string
  readonly currency: string
  readonly allergenList: string
  readonly timeZone: string
}

/** A café's settings as the form fields hold them. */
export const cafeAsTyped = ({ name, currency, allergenList, timeZone }: Cafe) => ({
  cafeName: name,
  currency,
  allergenList,
  timeZone,
})
