/** How long a name is kept, at the door and where it can be taken out in the same words. */
export function sayNameTime(nameDays: number | null): string {
  return nameDays
    ? `Your name is forgotten after ${nameDays} days.`
    : 'Your name is kept until somebody asks for it to be taken out.'
}
