'use client'

import { useState } from 'react'

/** What the door lets through, with some room for the form around it. */
const FITS = 290_000
const SIDES = [1600, 1200, 900, 640]

/** Draws the picture upright and smaller until it fits; null where this browser cannot read it. */
async function fitted(file: File): Promise<File | null> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' })
  for (const side of SIDES) {
    const scale = Math.min(1, side / Math.max(picture.width, picture.height))
    const canvas = document.createElement('canvas')
    canvas.width = Math.round(picture.width * scale)
    canvas.height = Math.round(picture.height * scale)
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height)
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.8))
    if (blob && blob.size <= FITS) return new File([blob], 'photo.jpg', { type: 'image/jpeg' })
  }
  return null
}

/** A file field that makes a phone's large photo fit, on this device; without script a file has to fit as it is. */
export function FittedFile({ refused, className }: { refused: string | null; className: string }) {
  const [said, setSaid] = useState<string | null>(null)
  const fit = async (field: HTMLInputElement) => {
    const file = field.files?.[0]
    if (!file) return
    setSaid('One moment…')
    const smaller = await fitted(file).catch(() => null)
    if (field.files?.[0] !== file) return
    if (smaller) {
      const chosen = new DataTransfer()
      chosen.items.add(smaller)
      field.files = chosen.files
    }
    setSaid(smaller ? `Made to fit: ${Math.ceil(smaller.size / 1000)} kB.` : null)
  }
  return (
    <div className="grid gap-1">
      <label htmlFor="file" className="font-semibold">
        Photo
      </label>
      <input
        id="file"
        name="file"
        type="file"
        accept="image/jpeg,image/webp"
        aria-describedby={refused ? 'file-help file-refused' : 'file-help'}
        aria-invalid={refused !== null}
        className={className}
        onChange={(event) => void fit(event.currentTarget)}
      />
      <p id="file-help" className="text-s text-soft">
        JPEG or WebP, at most 300 kB. Where it was taken, when and with what is taken off before it is kept.
      </p>
      <p role="status" className="text-s text-soft empty:hidden">
        {said}
      </p>
      {refused && (
        <p id="file-refused" className="font-semibold text-stop">
          {refused}
        </p>
      )}
    </div>
  )
}
