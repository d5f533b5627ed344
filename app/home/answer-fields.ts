import { homeLikingWords } from '@/lib/forms/home-answer-form'
import { HOME_LONGEST } from '@/lib/forms/home-answer-text'
import { html, type Markup } from '../taste/html'

/** What was typed into a form that could not be taken, and words beside each field. */
export interface HomeTyped {
  readonly values: Readonly<Record<string, string>>
  readonly problems: Readonly<Record<string, string>>
}

/** The fields in which somebody at home says how it was; the same in the file and behind the link. */
export function answerFields({ values, problems }: HomeTyped = { values: {}, problems: {} }): Markup {
  const step = (value: string, words: string) =>
    html`<label class="step"
      ><input
        type="radio"
        name="liking"
        value="${value}"
        data-words="${words}"
        ${(values['liking'] ?? '') === value ? html` checked` : null}
      />
      <span>${value === '' ? '' : `${value} `}${words}</span></label
    >`
  return html`<fieldset>
      <legend>How did you like it?</legend>
      ${homeLikingWords.map((words, at) => step(String(at + 1), words))} ${step('', 'I would rather not say')}
      ${problem('liking', problems)}
    </fieldset>
    ${area('changed', 'What did you change?', HOME_LONGEST.changed, values, problems)}
    ${area('further', 'Anything else?', HOME_LONGEST.further, values, problems)}
    <p class="field">
      <label for="name">Your first name, only if you want to</label>
      <input
        type="text"
        id="name"
        name="name"
        maxlength="${HOME_LONGEST.name}"
        autocomplete="given-name"
        value="${values['name'] ?? ''}"
        ${wrong('name', problems)}
      />
      ${problem('name', problems)}
    </p>`
}

function area(
  name: string,
  label: string,
  most: number,
  values: HomeTyped['values'],
  problems: HomeTyped['problems'],
): Markup {
  return html`<p class="field">
    <label for="${name}">${label}</label>
    <textarea id="${name}" name="${name}" rows="3" maxlength="${most}" ${wrong(name, problems)}>
${values[name] ?? ''}</textarea>
    ${problem(name, problems)}
  </p>`
}

function wrong(name: string, problems: HomeTyped['problems']): Markup | null {
  return problems[name] === undefined ? null : html` aria-invalid="true" aria-describedby="${name}-problem"`
}

function problem(name: string, problems: HomeTyped['problems']): Markup | null {
  const words = problems[name]
  return words === undefined ? null : html`<span class="problem" id="${name}-problem">${words}</span>`
}
