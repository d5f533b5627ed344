import type { Metadata, Viewport } from 'next'
import type { ReactNode } from 'react'
import { text } from '@/app/ui/font'
import './globals.css'

export const metadata: Metadata = {
  title: { default: 'Sipwright', template: '%s · Sipwright' },
  description: 'Weigh trials of a drink, pour them blind, and settle a house recipe on evidence.',
  robots: { index: false, follow: false },
}

/** Every page is made for whoever asks: the scripts in it carry the nonce of that answer. */
export const dynamic = 'force-dynamic'

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#faf7f2' },
    { media: '(prefers-color-scheme: dark)', color: '#171512' },
  ],
}

export default function RootLayout({ children }: { children: ReactNode }) {
  return (
    <html lang="en" className={text.variable}>
      <body className="min-h-dvh print:min-h-0 bg-paper text-m text-ink antialiased">{children}</body>
    </html>
  )
}
