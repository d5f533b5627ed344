'use client'

import { signOut } from 'next-auth/react'
import { useRouter } from 'next/navigation'
import { Button } from '@/app/ui/button'

export function SignOutButton() {
  const router = useRouter()
  const leave = async () => {
    await signOut({ redirect: false })
    router.replace('/sign-in?after=out')
    router.refresh()
  }
  return (
    <Button look="plain" onClick={() => void leave()}>
      Sign out
    </Button>
  )
}
