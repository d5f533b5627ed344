'use client'

import { Button } from './button'

export function PrintButton({ words = 'Print' }: { words?: string }) {
  return (
    <Button look="main" onClick={() => window.print()}>
      {words}
    </Button>
  )
}
