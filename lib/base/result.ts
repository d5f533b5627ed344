/** What life may answer: a value, or one reason from a closed list. Bugs throw instead. */
export type Result<Value, Reason extends string = string> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly reason: Reason; readonly detail?: Readonly<Record<string, string>> }

export function ok<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value }
}

/** @param detail words to put into the sentence for this reason (a cup's name, a number), never a database message */
export function no<Reason extends string>(
  reason: Reason,
  detail?: Readonly<Record<string, string>>,
): { readonly ok: false; readonly reason: Reason; readonly detail?: Readonly<Record<string, string>> } {
  return detail ? { ok: false, reason, detail } : { ok: false, reason }
}
