import type { CupLook } from '@/lib/tasks/plan/look-at-cups'

const say: Readonly<Record<CupLook['problem'], (look: Readonly<Record<string, string>>) => string>> = {
  'same-drink': ({ name, twin }) =>
    `“${name}” and “${twin}” are the same drink. Change or take away one of them; to pour one twice on purpose, serve it as a hidden duplicate.`,
  'title-tells': ({ name }) =>
    `The tasters’ title names the trial “${name}”: they would read it and know. Choose a title that tells nothing.`,
  'title-names-ingredient': ({ ingredient }) =>
    `The tasters’ title names “${ingredient}”, which is not alike in all cups: they would look for it. Choose a title that tells nothing.`,
}

/** What is wrong with the cups, and what to do; the names come from the look itself or from a refusal's detail. */
export function sayLook(problem: CupLook['problem'], names: Readonly<Record<string, string>>): string {
  return say[problem](names)
}

/** Is this refusal one of a look at the cups? Its detail has the names then. */
export function isLook<Reason extends string>(reason: Reason | CupLook['problem']): reason is CupLook['problem'] {
  return reason in say
}
