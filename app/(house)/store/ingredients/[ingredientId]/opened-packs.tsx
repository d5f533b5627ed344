import { canDo, type Member } from '@/lib/auth/guard'
import { readPacksOf } from '@/lib/tasks/bar/read-packs'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Section } from '@/app/ui/page-frame'
import { PackList } from '../../../bar/packs/pack-list'

/** Packs of it that stand open; whoever may make drinks opens the next. */
export async function OpenedPacks({ member, ingredientId }: { member: Member; ingredientId: string }) {
  const packs = await readPacksOf(theWorld(), member, ingredientId)
  const acts = canDo(member, 'bar:make')
  if (packs.length === 0 && !acts) return null
  return (
    <Section title="Opened packs">
      <div className="grid gap-3">
        {packs.length > 0 && <PackList packs={packs} zone={member.cafe.timeZone} acts={acts} />}
        {acts && (
          <div>
            <ButtonLink look="plain" href={`/bar/packs?ingredient=${ingredientId}`}>
              Open a pack
            </ButtonLink>
          </div>
        )}
      </div>
    </Section>
  )
}
