import type { BuildFigures, TrialBuild } from '@/lib/drink/trial'
import type { GlassLayers } from '@/lib/drink/layers'
import { fixed } from '@/lib/base/number-format'
import { sayFigure } from '@/app/ui/figure'
import { GlassPicture } from './glass-picture'
import { Sheet, Twin } from './sheet-parts'

/** The glass, what may be said of how full it is, and the same as a table. */
export function GlassCard({ glass, figures, build }: { glass: GlassLayers; figures: BuildFigures; build: TrialBuild }) {
  return (
    <Sheet title="In the glass">
      <GlassPicture glass={glass} />
      <p className="mt-2 text-s text-soft">To scale, in the order poured, not how it looks{sayWithout(glass)}.</p>
      <p
        className={`text-s ${figures.fit === 'fits' || figures.fit === 'not-known' ? 'text-soft' : 'font-semibold text-stop'}`}
      >
        {sayRoom(figures, build)}
      </p>
      <Twin
        words="The glass as a table"
        heads={['Line', 'Takes', 'From', 'To']}
        rows={[
          ...glass.layers.map(({ key, line, name, from, to }) => [
            key,
            `${line} ${name}`,
            ml(to - from),
            ml(from),
            ml(to),
          ]),
          ...(glass.ice ? [iceRow(glass.ice)] : []),
          ...glass.unknown.map(({ key, line, name, missing }) => [
            key,
            `${line} ${name}`,
            'not known',
            missing.join('; '),
            '',
          ]),
        ]}
      />
    </Sheet>
  )
}

const ml = (amount: number) => `${fixed(amount, amount < 10 ? 1 : 0)} ml`

function iceRow({ lines, from, to, line }: NonNullable<GlassLayers['ice']>): string[] {
  const above = line === null ? '' : `, ${ml(to - line)} above the drink`
  return ['ice', `${lines.join(', ')} Ice, on top${above}`, ml(to - from), ml(from), ml(to)]
}

function sayWithout({ unknown }: GlassLayers): string {
  return unknown.length === 0 ? '' : `, without line ${unknown.map(({ line }) => line).join(', ')}`
}

const past: Readonly<Record<BuildFigures['fit'], string>> = {
  fits: '',
  'over-fill-line': 'It passes the fill line. ',
  'over-brim': 'It does not fit: it runs over the brim. ',
  'not-known': '',
}

/** "399 of 473 ml when built, 51 ml room to the fill line" */
function sayRoom({ volume, fit, roomToBrim, roomToFillLine }: BuildFigures, { vessel, lines }: TrialBuild): string {
  const under = lines.some(({ form }) => form === 'ice') ? ', ice held under' : ''
  if (!volume.known) return `How full it gets is not known: ${volume.missing.join('; ')}.`
  if (vessel === null)
    return `${sayFigure(volume, 0)} when built${under}. No vessel is named: the walls are only to scale.`
  if (!roomToBrim.known) return `${sayFigure(volume, 0)} when built. ${vessel.name}: ${roomToBrim.missing.join('; ')}.`
  const fill = roomToFillLine?.known ? [`${roomWords(roomToFillLine.value, 'the fill line')}`] : []
  return `${past[fit]}${fixed(volume.value, 0)} of ${fixed(vessel.brimMl, 0)} ml when built${under}: ${[...fill, roomWords(roomToBrim.value, 'the brim')].join(', ')}.`
}

const roomWords = (room: number, what: string) =>
  room >= 0 ? `${fixed(room, 0)} ml below ${what}` : `${fixed(-room, 0)} ml over ${what}`
