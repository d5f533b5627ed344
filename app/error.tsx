'use client'

import { Door } from '@/app/ui/door'
import { Button } from '@/app/ui/button'

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <Door
      title="That did not work"
      words={
        <>
          Nothing was half written. Try again; if it happens once more, tell whoever runs this computer
          {error.digest ? (
            <>
              {' '}
              the number <strong>{error.digest}</strong>
            </>
          ) : null}
          .
        </>
      }
    >
      <Button onClick={reset}>Try again</Button>
    </Door>
  )
}
