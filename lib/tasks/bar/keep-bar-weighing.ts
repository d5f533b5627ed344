import 'server-only'
import { no, type Result } from '@/lib/base/result'
import type { WeighingSent } from '@/lib/forms/ladder-form'
import { keepWeighing } from '../trial/keep-weighing'
import type { Reader, World } from '../world'
import { readBarRecipe } from './read-bar-recipe'

/** Keeps what the scale showed who stands behind the bar: of a drink's house recipe alone. */
export async function keepBarWeighing(
  world: World,
  actor: Reader,
  recipeId: string,
  sent: WeighingSent,
): Promise<Result<{ readonly within: boolean | null }, 'gone'>> {
  const made = await readBarRecipe(world, actor, recipeId)
  return made ? keepWeighing(world, actor, made.card.sheet.trial.id, sent, made.forToday) : no('gone')
}
