import 'server-only'
import type { Db, Tx } from './engine/client'

/** Every name of a café that somebody may look for, newest first, with what its line says. */
export async function findNamed(db: Db | Tx, cafeId: string) {
  const [recipes, trials, panels, decisions] = await Promise.all([
    db.recipe.findMany({
      where: { cafeId },
      orderBy: { createdAt: 'desc' },
      select: { id: true, name: true, note: true },
    }),
    db.trial.findMany({
      where: { cafeId },
      orderBy: { createdAt: 'desc' },
      select: { id: true, number: true, name: true, recipe: { select: { name: true } } },
    }),
    db.panel.findMany({
      where: { cafeId },
      orderBy: { createdAt: 'desc' },
      select: { id: true, title: true, question: true, recipe: { select: { name: true } } },
    }),
    db.decision.findMany({
      where: { cafeId },
      orderBy: { at: 'desc' },
      select: {
        id: true,
        reason: true,
        at: true,
        recipe: { select: { id: true, name: true } },
        trial: { select: { number: true, name: true } },
        panel: { select: { title: true } },
      },
    }),
  ])
  return { recipes, trials, panels, decisions }
}
