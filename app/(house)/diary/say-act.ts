import type { DiaryEntry } from '@/lib/tasks/house/read-diary'

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
}

/** Where what a line is about stands; null for what is gone or has no page. */
export function pageOfSubject({ subject, subjectKind, subjectId }: DiaryEntry): string | null {
  if (!subject) return null
  return pages[subjectKind]?.(subjectId, subject.ownerId ?? '') ?? null
}
