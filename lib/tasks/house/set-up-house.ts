import 'server-only'
import { currencyDigits } from '@/lib/base/number-format'
import { no, ok, type Result } from '@/lib/base/result'
import { hashToken } from '@/lib/auth/link-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addCafe } from '@/lib/db/cafes'
import { findLiveLink, useUpLink } from '@/lib/db/links'
import { addMember, findUserByEmail } from '@/lib/db/people'
import type { SetUp } from '@/lib/forms/account-form'
import { USUAL_NAME_DAYS } from '../privacy/choose-name-days'
import { hashChosen, type PasswordRefusal } from '../team/new-password'
import { noteAct, type Actor, type World } from '../world'
import { layInStarters } from './lay-in-starters'
import { layOutDemo } from './lay-out-demo'

export async function canSetUp(world: World, token: string): Promise<boolean> {
  return (await findLiveLink(world.db, 'setup', hashToken(token), world.now())) !== null
}

/** Makes the owner's account and the café, once. Without the live link nobody becomes owner. */
export async function setUpHouse(
  world: World,
  token: string,
  wanted: SetUp,
): Promise<Result<Actor, 'link-dead' | 'email-taken' | PasswordRefusal>> {
  if (!(await canSetUp(world, token))) return no('link-dead')
  const hashed = await hashChosen(wanted.password, [wanted.name, wanted.email, wanted.cafeName])
  if (!hashed.ok) return hashed
  const made = await inTransaction(world, async (tx) => {
    const now = world.now()
    const link = await findLiveLink(tx, 'setup', hashToken(token), now)
    if (!link) return no('link-dead')
    if (await findUserByEmail(tx, wanted.email)) return no('email-taken')
    if (!(await useUpLink(tx, link.id, now))) return no('link-dead')

    const cafeId = world.id()
    const userId = world.id()
    const isDemo = wanted.start === 'demo'
    await addCafe(tx, {
      id: cafeId,
      name: wanted.cafeName,
      currency: wanted.currency,
      currencyDigits: currencyDigits(wanted.currency) ?? 2,
      allergenList: wanted.allergenList,
      timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
      nameDays: USUAL_NAME_DAYS,
      isDemo,
      createdAt: now,
    })
    await addMember(
      tx,
      { id: userId, email: wanted.email, name: wanted.name, passwordHash: hashed.value, createdAt: now },
      { id: world.id(), cafeId, role: 'owner' },
    )
    const actor = { cafeId, userId }
    await layInStarters(world, tx, actor)
    await noteAct(world, tx, actor, {
      act: 'house-set-up',
      subjectKind: 'cafe',
      subjectId: cafeId,
      detail: { demo: isDemo },
    })
    return ok(actor)
  })
  if (made.ok && wanted.start === 'demo')
    await layOutDemo(world, {
      ...made.value,
      cafe: {
        currency: wanted.currency,
        currencyDigits: currencyDigits(wanted.currency) ?? 2,
        allergenList: wanted.allergenList,
      },
    })
  return made
}
