type Child = Node | string | null

/** Makes one element; text goes in as text. */
export function el<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const node = document.createElement(tag)
  for (const name of Object.keys(attributes)) node.setAttribute(name, attributes[name] ?? '')
  for (const child of children) if (child !== null) node.append(child)
  return node
}

export function button(look: string, words: string | readonly Child[], press: () => void): HTMLButtonElement {
  const node = el('button', { type: 'button', class: look }, ...(typeof words === 'string' ? [words] : words))
  node.addEventListener('click', press)
  return node
}
