import type { OpenPack } from '@/lib/tasks/bar/read-packs'
import { ActButton } from '@/app/ui/act-button'
import { ButtonLink } from '@/app/ui/button'
import { sayMoment } from '@/app/ui/moment'
import { packThrownAwayAction, packUsedUpAction } from './actions'

/** "Oat drink, L 2231" */
export const packName = ({ name, mark }: Pick<OpenPack, 'name' | 'mark'>) => (mark === null ? name : `${name}, ${mark}`)

/** Packs that stand open, what must go first in front. @param acts  may end them and print their labels */
export function PackList({ packs, zone, acts }: { packs: readonly OpenPack[]; zone: string; acts: boolean }) {
  return (
    <ul className="divide-y divide-line rounded border border-line bg-raised">
      {packs.map((pack) => (
        <li key={pack.id} className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2 px-4 py-3">
          <div>
            <p className="font-semibold">{packName(pack)}</p>
            <p className={pack.isPast ? 'text-s font-semibold text-stop' : 'text-s text-soft'}>
              {pack.discardAt === null
                ? 'No discard time: nothing will say when it is past.'
                : `${pack.isPast ? 'Past its time: ' : 'Good until '}${sayMoment(pack.discardAt, zone)}`}
            </p>
            <p className="text-s text-soft">Opened {sayMoment(pack.openedAt, zone)}</p>
          </div>
          {acts && <PackActs pack={pack} />}
        </li>
      ))}
    </ul>
  )
}

function PackActs({ pack }: { pack: OpenPack }) {
  return (
    <div className="flex flex-wrap gap-2">
      {!pack.isPast && (
        <ButtonLink look="plain" href={`/bar/packs/${pack.id}`}>
          Label<span className="sr-only"> for {packName(pack)}</span>
        </ButtonLink>
      )}
      {!pack.isPast && <ActButton look="plain" words="Used up" action={packUsedUpAction.bind(null, pack.id)} />}
      <ActButton look="plain" words="Thrown away" action={packThrownAwayAction.bind(null, pack.id)} />
    </div>
  )
}
