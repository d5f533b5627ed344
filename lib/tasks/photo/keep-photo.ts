import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addPhoto, countPhotos, findPhoto, setPhotoRemoved } from '@/lib/db/photos'
import { findRecipe } from '@/lib/db/recipes'
import { findTrial } from '@/lib/db/trials'
import { noteAct, type Actor, type World } from '../world'
import { cleanPhoto } from './clean-photo'
import type { PhotoRefusal } from './photo-kinds'

/** More of one recipe, or of one trial, would make every copy of the house long. */
const MOST = 12

/** Keeps a photo of a recipe, or of one of its trials: the picture alone, without what the camera wrote beside it. */
export async function keepPhoto(
  world: World,
  actor: Actor,
  of: { readonly recipeId: string; readonly trialId: string | null },
  sent: { readonly file: Uint8Array; readonly caption: string | null },
): Promise<Result<string, 'gone' | 'too-many' | PhotoRefusal>> {
  const clean = cleanPhoto(sent.file)
  if (!clean.ok) return clean
  return inTransaction(world, async (tx) => {
    const { recipeId, trialId } = of
    if (!(await findRecipe(tx, actor.cafeId, recipeId))) return no('gone')
    const trial = trialId === null ? null : await findTrial(tx, actor.cafeId, trialId)
    if (trialId !== null && trial?.recipeId !== recipeId) return no('gone')
    const owner = trialId === null ? { recipeId } : { trialId }
    if ((await countPhotos(tx, actor.cafeId, owner)) >= MOST) return no('too-many')
    const id = world.id()
    const { type, width, height, bytes } = clean.value
    await addPhoto(tx, {
      id,
      cafeId: actor.cafeId,
      ...owner,
      type,
      width,
      height,
      bytes: new Uint8Array(bytes),
      caption: sent.caption,
      createdAt: world.now(),
      createdById: actor.userId,
    })
    const subject =
      trialId === null ? { subjectKind: 'recipe', subjectId: recipeId } : { subjectKind: 'trial', subjectId: trialId }
    await noteAct(world, tx, actor, { act: 'photo-added', ...subject })
    return ok(id)
  })
}

/** Takes a photo out: its row stays, its picture goes. Doing it again changes nothing. */
export async function takePhotoOut(world: World, actor: Actor, photoId: string): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const photo = await findPhoto(tx, actor.cafeId, photoId)
    if (!photo || !(await setPhotoRemoved(tx, actor.cafeId, photoId, world.now(), actor.userId))) return no('gone')
    const subject = photo.trialId
      ? { subjectKind: 'trial', subjectId: photo.trialId }
      : { subjectKind: 'recipe', subjectId: photo.recipeId ?? '' }
    await noteAct(world, tx, actor, { act: 'photo-taken-out', ...subject })
    return ok(null)
  })
}
