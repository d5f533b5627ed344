import { planLimits } from './plan'

/** Cut where it would grow too long, before what is put behind it. */
function withEnd(text: string, end: string): string {
  const room = planLimits.title - end.length
  const letters = [...text]
  return (
    (letters.length <= room
      ? text
      : `${letters
          .slice(0, room - 1)
          .join('')
          .trimEnd()}…`) + end
  )
}

/**
 * What is a new panel of this recipe called until somebody names it?
 *
 * @param recipe  its name
 * @param before  how many panels were planned for it so far
 * @returns       "Iced date coffee, panel 3", within the limit of a title
 *
 * Checked  test/unit/panel/title.test.ts
 */
export function freshTitle(recipe: string, before: number): string {
  return withEnd(recipe, `, panel ${before + 1}`)
}

/**
 * What is a panel called that puts the question of another one again?
 *
 * @returns  "How sweet?, again", however often, within the limit of a title
 *
 * Checked  test/unit/panel/title.test.ts
 */
export function againTitle(title: string): string {
  return withEnd(title.replace(/, again$/, ''), ', again')
}
