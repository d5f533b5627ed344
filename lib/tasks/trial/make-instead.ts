import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { printNumber } from '@/lib/base/typed-number'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addNote, findTrial, type TrialContent } from '@/lib/db/trials'
import { PERCENT } from '@/lib/drink/unit'
import { AMOUNT } from '@/lib/forms/number-fields'
import { namedBy } from '../store/store-part'
import type { Reader, World } from '../world'
import { copyTrial } from './branch-trial'
import { standInsFor, type InsteadPart, type Proposal } from './stand-ins'

export type InsteadRefusal = 'gone' | 'changed' | 'allergens-unread'

/**
 * Makes a draft in which something stands in for one line of a trial, with a note that says so. It is nobody's house recipe
 * until it is tasted.
 *
 * @param key  of the proposal as it was shown: where the store has changed since, it is refused
 * @param isRead  whoever makes it says that they read which allergens are new with it
 * @returns    the id of the draft; without `isRead` none, where something is new
 */
export async function makeInstead(
  world: World,
  reader: Reader,
  trialId: string,
  lineKey: string,
  key: string,
  isRead = false,
): Promise<Result<string, InsteadRefusal>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, reader.cafeId, trialId)
    const found = trial && (await standInsFor(tx, reader, world.now(), trial, lineKey))
    if (!found) return no('gone')
    const chosen = found.proposals.find((one) => one.key === key)
    if (!chosen) return no('changed')
    const fresh = newWith(chosen)
    if (fresh.length > 0 && !isRead) return no('allergens-unread')
    const names = chosen.parts.map(({ part }) => part.name)
    const place = trial.lines.findIndex(({ position }) => String(position) === lineKey)
    const id = await copyTrial(world, tx, reader, trial, {
      name: `${trial.name}, ${names.join(', ')}`.slice(0, 80),
      vary: (content) => withInstead(world, content, place, chosen.parts),
    })
    await addNote(tx, {
      id: world.id(),
      cafeId: reader.cafeId,
      trialId: id,
      text: `${inWords(names)} ${names.length > 1 ? 'stand' : 'stands'} in for ${found.line.name}, not tasted.${
        fresh.length > 0 ? ` New with it, and read: ${fresh.join(', ')}.` : ''
      }`,
      at: world.now(),
      authorId: reader.userId,
    })
    return ok(id)
  })
}

/** Allergens that its labels name and the line's did not; a label that nobody read keeps card and panel shut by itself. */
const newWith = ({ graver, unread }: Proposal) =>
  graver.filter(({ state }) => unread.length === 0 || state !== 'not-stated').map(({ name }) => name)

const inWords = (names: readonly string[]) =>
  names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}` : (names[0] ?? '')

/** What was said of the line it replaces (its amount, tolerance, note, what levels use) is not true of another thing. */
function withInstead(world: World, content: TrialContent, place: number, parts: readonly InsteadPart[]): TrialContent {
  const before = content.lines[place]
  const instead = parts.map(({ part, mg }): TrialContent['lines'][number] => {
    return {
      id: world.id(),
      role: part.kind,
      ...namedBy(part.ref, part.pour?.batch?.id),
      targetMg: mg,
      typed: printNumber(mg / 1000, AMOUNT),
      unit: 'g',
      temperatureDeciC: part.kind === 'water' ? null : before?.temperatureDeciC,
    }
  })
  const inGrams = (line: TrialContent['lines'][number]) =>
    // grams are held: the share of another glass would be other grams
    line.unit === PERCENT ? { ...line, typed: printNumber(line.targetMg / 1000, AMOUNT), unit: 'g' } : line
  return { ...content, lines: content.lines.flatMap((line, at) => (at === place ? instead : [inGrams(line)])) }
}
