import { sayDay, sayMoment, sayTime } from '@/app/ui/moment'
import type { DiaryEntry } from '@/lib/tasks/house/diary-lines'
import type { DiaryFold } from '@/lib/tasks/house/read-diary-folds'

/** "panel-opened" by Mara → "Mara: panel opened". The words of the diary are the words of the acts. */
export function sayAct(entry: DiaryEntry): string {
  const words = entry.act.replaceAll('-', ' ')
  const detail = Object.entries(entry.detail ?? {})
    .filter(([, value]) => typeof value === 'string' || typeof value === 'number')
    .map(([name, value]) => `${name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)} ${String(value)}`)
  return `${entry.who}: ${words}${detail.length > 0 ? ` (${detail.join(', ')})` : ''}`
}

const pages: Readonly<Record<string, (id: string, ownerId: string) => string>> = {
  panel: (id) => `/panels/${id}`,
  recipe: (id) => `/recipes/${id}`,
  trial: (id) => `/trials/${id}`,
  ingredient: (id) => `/store/ingredients/${id}`,
  preparation: (id) => `/store/preparations/${id}`,
  batch: (id, ownerId) => `/store/preparations/${ownerId}/batches/${id}`,
  vessel: (id) => `/store/vessels/${id}`,
  seat: (_, ownerId) => `/panels/${ownerId}`,
  serving: (_, ownerId) => `/panels/${ownerId}`,
  set: (_, ownerId) => `/panels/${ownerId}`,
}

/** Where what a line is about stands; null for what is gone or has no page. */
export function pageOfSubject({ subject, subjectKind, subjectId }: DiaryEntry): string | null {
  if (!subject) return null
  return pages[subjectKind]?.(subjectId, subject.ownerId ?? '') ?? null
}

const stepWords: Readonly<Record<string, string>> = {
  'seat-taken': 'seats taken',
  'seat-moved': 'seats that went on on another phone',
  'phone-passed-on': 'phones passed on',
  'code-seen': 'codes found',
  'score-stored': 'scores',
  'score-changed': 'scores changed',
  'score-kept-late': 'late scores',
  'comment-stored': 'comments',
  'comment-changed': 'comments changed',
  'cup-finished': 'next cup',
  'cup-skipped': 'cups skipped',
  'set-answered': 'answers',
  'set-answer-changed': 'answers changed',
  'set-answer-kept-late': 'late answers',
  'set-finished': 'cups done together',
  'set-skipped': 'cups skipped together',
}

/** "tasters: 214 steps (scores, comments, next cup) in panel": the panel's name and the times stand behind it. */
export function saySteps({ steps, acts, panel }: DiaryFold): string {
  const what = acts.map(({ act }) => stepWords[act] ?? act.replaceAll('-', ' '))
  return `tasters: ${steps} steps (${what.join(', ')})${panel ? ' in panel' : ','}`
}

/** "18:05–18:40", or two moments where they are of different days. */
export function sayBetween({ from, to }: Pick<DiaryFold, 'from' | 'to'>, zone: string): string {
  if (sayDay(from, zone) !== sayDay(to, zone)) return `${sayMoment(from, zone)} – ${sayMoment(to, zone)}`
  const [first, last] = [sayTime(from, zone), sayTime(to, zone)]
  return first === last ? first : `${first}–${last}`
}
