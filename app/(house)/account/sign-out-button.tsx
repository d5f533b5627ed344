'use client'

import { signOut } from 'next-auth/react'
import { Button } from '@/app/ui/button'

export function SignOutButton() {
  return (
    <Button
      look="plain"
      onClick={() => void signOut({ redirect: false }).then(() => window.location.assign('/sign-in?after=out'))}
    >
      Sign out
    </Button>
  )
}
