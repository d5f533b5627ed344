import type { DiaryEntry } from '@/lib/tasks/house/read-diary'

/** "panel-opened" by Mara → "Mara: panel opened". The words of the diary are the words of the acts. */
export function sayAct(entry: DiaryEntry): string {
  const words = entry.act.replaceAll('-', ' ')
  const detail = Object.entries(entry.detail ?? {})
    .filter(([, value]) => typeof value === 'string' || typeof value === 'number')
    .map(([name, value]) => `${name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)} ${String(value)}`)
  return `${entry.who}: ${words}${detail.length > 0 ? ` (${detail.join(', ')})` : ''}`
}
