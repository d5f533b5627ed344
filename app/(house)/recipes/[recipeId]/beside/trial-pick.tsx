import type { BesideRefusal, readBeside } from '@/lib/tasks/recipe/read-beside'
import { Button } from '@/app/ui/button'
import { Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'

type Found = NonNullable<Awaited<ReturnType<typeof readBeside>>>

const sayRefusal: Readonly<Record<BesideRefusal, (ticked: number) => string>> = {
  'too-few': (ticked) => `Tick two to six trials. ${ticked === 0 ? 'None is' : 'One is'} ticked.`,
  'too-many': (ticked) => `Tick at most six trials. ${ticked} are ticked, and more do not fit beside one another.`,
}

/** Why nothing stands beside one another, and what was asked for and is not there. */
export function Refused({ found: { refused, named, gone } }: { found: Found }) {
  if (refused === null && gone === 0) return null
  return (
    <Notice look={refused === null ? 'note' : 'stop'}>
      {refused !== null && sayRefusal[refused](named.length)}{' '}
      {gone > 0 && `${gone} asked for ${gone === 1 ? 'is' : 'are'} no trial of this recipe.`}
    </Notice>
  )
}

/** Which trials stand there: a plain question, answered by an address that can be kept. */
export function TrialPick({ found: { named, offered }, home }: { found: Found; home: boolean }) {
  return (
    <div className="screen-only">
      <Section title="Which trials" aside="two to six">
        <form className="grid max-w-xl gap-2">
          {home && <input type="hidden" name="measures" value="home" />}
          <fieldset>
            <legend className="sr-only">Trials, two to six</legend>
            {offered.map(({ id, number, name }) => (
              <label key={id} className="flex min-h-11 items-start gap-3 py-2">
                <input
                  key={String(named.includes(id))}
                  type="checkbox"
                  name="trial"
                  value={id}
                  defaultChecked={named.includes(id)}
                  className="mt-0.5 size-5 shrink-0 accent-[var(--accent)]"
                />
                {number}. {name}
              </label>
            ))}
          </fieldset>
          <div>
            <Button type="submit" look="plain">
              Show side by side
            </Button>
          </div>
        </form>
      </Section>
    </div>
  )
}
