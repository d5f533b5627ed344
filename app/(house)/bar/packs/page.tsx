import { nanoid } from 'nanoid'
import type { Metadata } from 'next'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readPacks } from '@/lib/tasks/bar/read-packs'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField, SelectField, TextField } from '@/app/ui/field'
import { localRules } from '@/app/ui/notice'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { openPackAction } from './actions'
import { PackList } from './pack-list'

export const metadata: Metadata = { title: 'Opened packs' }

export default async function PacksPage({ searchParams }: { searchParams: Query }) {
  const member = await requireMember('bar:make')
  const { ingredient } = await once(searchParams)
  const { packs, openable } = await readPacks(theWorld(), member, canDo(member, 'recipe:read'))
  const past = packs.filter(({ isPast }) => isPast).length
  const choices = openable.map(({ id, name, openHours }) => ({
    value: id,
    words: openHours === null ? name : `${name} (${openHours} h once opened)`,
  }))
  return (
    <Page
      trail={[{ href: '/bar', words: 'Bar' }]}
      title="Opened packs"
      answer={past === 0 ? 'None is past its time.' : `${past} past ${past === 1 ? 'its' : 'their'} time.`}
    >
      <Section title="Open a pack" aside="Its label is printed next">
        <ActForm
          id="pack"
          action={openPackAction}
          defaults={{ ingredient: choices.some(({ value }) => value === ingredient) ? ingredient : '' }}
          submit="It is opened"
          className="max-w-md"
        >
          <HiddenField name="key" value={nanoid()} />
          <SelectField name="ingredient" label="What" none="choose" choices={choices} />
          <TextField name="mark" label="What tells it from another" help="Its lot, or the date on it." />
          <TextField name="openedAt" label="Opened" type="datetime-local" help="Empty: now." />
          <TextField
            name="discardAt"
            label="Discard"
            type="datetime-local"
            help={`The date on the pack, or earlier. The house’s own hours count where they end sooner. ${localRules}`}
          />
        </ActForm>
      </Section>
      <Section title="Open" aside="What must go first stands first">
        {packs.length === 0 ? (
          <Empty words="No pack stands open." />
        ) : (
          <PackList packs={packs} zone={member.cafe.timeZone} acts />
        )}
      </Section>
    </Page>
  )
}
