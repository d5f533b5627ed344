import { readHomeWords, type HomeWords } from '@/lib/tasks/store/home-words'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import { theWorld, type Actor } from '@/lib/tasks/world'
import { once, type Query } from '@/app/ui/query'

/** Household measures of a sheet where its address asks for them; null where it does not. */
export async function homeAsked(query: Query, reader: Actor, { build }: TrialSheet): Promise<HomeWords | null> {
  const { measures } = await once(query)
  return measures === 'home' ? readHomeWords(theWorld(), reader, build) : null
}
