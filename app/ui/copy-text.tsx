'use client'

import { useId, useRef, useState } from 'react'
import { Button } from './button'
import { QrCode } from './qr-code'

const SAY = { copied: 'Copied.', marked: 'It is marked now: copy it as you copy any text.' } as const

/**
 * Marks what stands in an element and copies it. Over plain http a browser has no clipboard for pages; the older command
 * copies what is marked there, and where that is gone too, what is marked is left to be copied by hand.
 */
async function copyFrom(place: HTMLElement, text: string): Promise<keyof typeof SAY> {
  if (place instanceof HTMLInputElement) place.select()
  else window.getSelection()?.selectAllChildren(place)
  try {
    if (window.isSecureContext) await navigator.clipboard.writeText(text)
    else if (!document.execCommand('copy')) return 'marked'
    return 'copied'
  } catch {
    return 'marked'
  }
}

function CopyButton({ text, what, from }: { text: string; what: string; from: () => HTMLElement | null }) {
  const [said, setSaid] = useState<keyof typeof SAY | null>(null)
  async function copy() {
    const place = from()
    if (!place) return
    setSaid(null) // said anew each time it is pressed
    setSaid(await copyFrom(place, text))
  }
  return (
    <span className="screen-only flex flex-wrap items-center gap-2">
      <Button look="plain" onClick={() => void copy()}>
        Copy<span className="sr-only"> {what}</span>
      </Button>
      <span role="status" className="text-s">
        {said && SAY[said]}
      </span>
    </span>
  )
}

/** An address in letters, with a button to copy it. */
export function CopyText({ text, what }: { readonly text: string; readonly what: string }) {
  const place = useRef<HTMLSpanElement>(null)
  return (
    <>
      <span ref={place} className="mb-2 block break-all">
        {text}
      </span>
      <CopyButton text={text} what={what} from={() => place.current} />
    </>
  )
}

/** A link that is shown once, to be handed on: scanned from this screen, or copied. */
export function LinkToHandOn({ address, label }: { readonly address: string; readonly label: string }) {
  const place = useRef<HTMLInputElement>(null)
  const id = useId()
  return (
    <span className="mt-2 grid gap-2">
      <label htmlFor={id} className="sr-only">
        {label}
      </label>
      <input
        ref={place}
        id={id}
        readOnly
        value={address}
        className="block min-h-11 w-full rounded border border-edge bg-paper px-3"
        onFocus={(event) => event.currentTarget.select()}
      />
      <CopyButton text={address} what={label.toLowerCase()} from={() => place.current} />
      <QrCode text={address} label="Code to scan with a phone" className="w-48 rounded border border-line" />
    </span>
  )
}
