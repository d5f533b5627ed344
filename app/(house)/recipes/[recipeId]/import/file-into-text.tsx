'use client'

import { useField } from '@conform-to/react'

/** Puts a chosen file's text into the field below, where it can be read before it is sent. */
export function FileIntoText({ target }: { target: string }) {
  const [field] = useField<string>('content')
  return (
    <div className="grid gap-1">
      <label htmlFor={target} className="font-semibold">
        Choose the file
      </label>
      <input
        id={target}
        type="file"
        accept="application/json,.json"
        className="min-h-11 w-full rounded border border-edge bg-raised px-3 py-2"
        onChange={(event) => {
          const area = document.getElementById(field.id)
          const file = event.currentTarget.files?.[0]
          if (!file || !(area instanceof HTMLTextAreaElement)) return
          void file.text().then((text) => {
            area.value = text
          })
        }}
      />
    </div>
  )
}
