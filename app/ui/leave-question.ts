'use client'

import { useEffect, useRef, type RefObject } from 'react'

/**
 * Asks before a page is left whose form holds something typed and not sent: by a link, or by closing the page. The Back
 * button is not held up; what was typed stays on the device where the form keeps it.
 *
 * @param question  without it nothing is asked
 * @param isTyped   whether the form began with something that was typed before
 */
export function useLeaveQuestion(
  question: string | undefined,
  element: RefObject<HTMLFormElement | null>,
  answer: { readonly status?: string | undefined } | null,
  isTyped: boolean,
): void {
  const unsent = useRef(isTyped)
  useEffect(() => {
    const form = element.current
    if (!form || question === undefined) return
    if (answer?.status === 'error') unsent.current = true
    const type = () => {
      unsent.current = true
    }
    const send = () => {
      unsent.current = false
    }
    const unload = (event: BeforeUnloadEvent) => {
      if (unsent.current) event.preventDefault()
    }
    const click = (event: MouseEvent) => {
      const link = event.target instanceof Element ? event.target.closest('a[href]') : null
      const opensBeside = event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0
      if (!link || opensBeside || !unsent.current || link.getAttribute('href')?.startsWith('#')) return
      if (link.getAttribute('target') === '_blank') return
      if (window.confirm(question)) unsent.current = false
      else {
        event.preventDefault()
        event.stopPropagation()
      }
    }
    form.addEventListener('input', type)
    form.addEventListener('submit', send)
    window.addEventListener('beforeunload', unload)
    document.addEventListener('click', click, true)
    return () => {
      form.removeEventListener('input', type)
      form.removeEventListener('submit', send)
      window.removeEventListener('beforeunload', unload)
      document.removeEventListener('click', click, true)
    }
  }, [question, element, answer])
}
