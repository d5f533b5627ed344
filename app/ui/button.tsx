import Link from 'next/link'
import type { ComponentProps } from 'react'

const shape =
  'inline-flex min-h-11 items-center justify-center gap-2 rounded px-4 py-2 font-semibold no-underline cursor-pointer disabled:cursor-not-allowed disabled:opacity-60'

const looks = {
  main: 'bg-accent text-on-accent hover:brightness-110',
  plain: 'border border-edge bg-raised text-ink hover:border-ink',
  stop: 'bg-stop text-on-stop hover:brightness-110',
  quiet: 'text-accent underline underline-offset-4 px-2',
} as const

export type ButtonLook = keyof typeof looks

type ButtonProps = ComponentProps<'button'> & { look?: ButtonLook }

export function Button({ look = 'main', className = '', type = 'button', ...rest }: ButtonProps) {
  return <button type={type} className={`${shape} ${looks[look]} ${className}`} {...rest} />
}

type LinkProps = ComponentProps<typeof Link> & { look?: ButtonLook }

export function ButtonLink({ look = 'main', className = '', ...rest }: LinkProps) {
  return <Link prefetch={false} className={`${shape} ${looks[look]} ${className}`} {...rest} />
}
