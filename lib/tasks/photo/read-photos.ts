import 'server-only'
import { findNames } from '@/lib/db/people'
import { findPhoto, findPhotoBytes, findPhotos, isTastingRecipe } from '@/lib/db/photos'
import { findRecipe } from '@/lib/db/recipes'
import { findTrialNames } from '@/lib/db/trials'
import type { Actor, World } from '../world'

/**
 * The photos of a recipe and of its trials.
 *
 * @returns  null where the recipe is not there; no photos, and `isTasting`, for whoever has a seat in an open panel of it: a
 *           picture tells the cups apart
 */
export async function readPhotos(world: World, actor: Actor, recipeId: string) {
  const { db } = world
  const recipe = await findRecipe(db, actor.cafeId, recipeId)
  if (!recipe) return null
  const isTasting = await isTastingRecipe(db, actor.cafeId, recipeId, actor.userId)
  const [found, trials] = await Promise.all([
    isTasting ? [] : findPhotos(db, actor.cafeId, recipeId),
    findTrialNames(db, actor.cafeId, recipeId),
  ])
  const names = await findNames(
    db,
    found.flatMap(({ createdById }) => (createdById === null ? [] : [createdById])),
  )
  return {
    recipe: { id: recipe.id, name: recipe.name },
    isTasting,
    trials,
    photos: found.map(({ createdById, ...photo }) => ({
      ...photo,
      by: createdById === null ? 'the house' : (names.get(createdById) ?? 'somebody'),
    })),
  }
}

export type RecipePhotos = NonNullable<Awaited<ReturnType<typeof readPhotos>>>

/** One picture with its type; null where it is not there, was taken out, or whoever asks tastes in an open panel of its recipe. */
export async function readPhoto(world: World, actor: Actor, photoId: string) {
  const photo = await findPhoto(world.db, actor.cafeId, photoId)
  const recipeId = photo?.recipeId ?? photo?.trial?.recipeId
  if (!photo || !recipeId || (await isTastingRecipe(world.db, actor.cafeId, recipeId, actor.userId))) return null
  const bytes = await findPhotoBytes(world.db, actor.cafeId, photoId)
  return bytes && { type: photo.type, bytes }
}
