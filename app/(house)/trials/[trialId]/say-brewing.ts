import { plain } from '@/lib/base/number-format'
import type { BrewStep } from '@/lib/drink/scale'

/** "ground medium; 150 g of water at 93 °C; 4 min", as far as it is known: the same words wherever one brews from. */
export function sayBrewing({
  grind,
  water,
  waterTemperature,
  seconds,
}: Pick<BrewStep, 'grind' | 'water' | 'waterTemperature' | 'seconds'>): string {
  const poured = water === null ? 'water' : `${plain(water, 1)} g of water`
  const hot = waterTemperature === null ? '' : ` at ${plain(waterTemperature, 1)} °C`
  return [
    grind === null ? '' : `ground ${grind}`,
    water === null && waterTemperature === null ? '' : poured + hot,
    seconds === null ? '' : sayTime(seconds),
  ]
    .filter((words) => words !== '')
    .join('; ')
}

/** "45 s", "4 min", "4 min 30 s", "16 h" */
export function sayTime(seconds: number): string {
  const whole = Math.round(seconds)
  const parts = [
    [Math.floor(whole / 3600), 'h'],
    [Math.floor((whole % 3600) / 60), 'min'],
    [whole % 60, 's'],
  ] as const
  return parts.flatMap(([count, unit]) => (count > 0 ? [`${count} ${unit}`] : [])).join(' ')
}
