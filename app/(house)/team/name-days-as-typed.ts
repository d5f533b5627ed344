/** The time that names are kept as the form's field holds it; empty where nobody has chosen. */
export const nameDaysAsTyped = (nameDays: number | null) => ({ nameDays: nameDays === null ? '' : String(nameDays) })
