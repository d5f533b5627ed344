import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { homeLikingWords } from '@/lib/forms/home-answer-form'
import { readHomeSheet } from '@/lib/tasks/home/read-home-sheet'
import { theAddressFromHome } from '@/lib/tasks/house/public-address'
import { theWorld } from '@/lib/tasks/world'
import { HomeSheet } from '@/app/home/home-sheet'
import { sayHomeSheet } from '@/app/home/say-home-sheet'
import { sayDay } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { Page } from '@/app/ui/page-frame'
import { PrintSheet } from '@/app/ui/print-sheet'
import { LinkPart } from './link-part'
import { SheetActs, TypeInPart } from './sheet-parts'

export const metadata: Metadata = { title: 'Sheet for home' }

export default async function HomeSheetPage({ params }: { params: Promise<{ recipeId: string; sheetId: string }> }) {
  const member = await requireMember('recipe:read')
  const { recipeId, sheetId } = await params
  const found = await readHomeSheet(theWorld(), member, sheetId)
  if (!found || found.recipe.id !== recipeId) notFound()
  const { cafe } = member
  const words = sayHomeSheet(found.sheet, cafe.timeZone)
  const address = theAddressFromHome()
  const writes = canDo(member, 'recipe:write')
  return (
    <Page
      trail={[
        { href: `/recipes/${recipeId}`, words: found.recipe.name },
        { href: `/recipes/${recipeId}/home`, words: 'From home' },
      ]}
      title={<span className="print:hidden">Sheet {found.sheet.version} for home</span>}
      act={writes && found.givenOut && <SheetActs recipeId={recipeId} sheetId={sheetId} />}
    >
      {found.withdrawnAt && (
        <Notice look="caution" word="Withdrawn">
          on {sayDay(found.withdrawnAt, cafe.timeZone)}: do not hand it on. Answers to it are still taken in.
        </Notice>
      )}
      {found.givenOut && (
        <PrintSheet
          foot={`${cafe.name}, ${found.recipe.name}, sheet ${found.sheet.version}, ${words.mark}, printed ${sayDay(theWorld().now(), cafe.timeZone)}`}
        />
      )}
      <HomeSheet words={words} likingWords={homeLikingWords} />
      {writes && (
        <div className="screen-only grid gap-6">
          {found.givenOut && address && (
            <LinkPart recipeId={recipeId} sheetId={sheetId} hasLink={found.hasLink} address={address} />
          )}
          <TypeInPart recipeId={recipeId} sheetId={sheetId} answerKey={theWorld().id()} />
        </div>
      )}
    </Page>
  )
}
