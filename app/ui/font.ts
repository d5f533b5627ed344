import localFont from 'next/font/local'

/** Made for legibility, with tabular figures; served from our own build, fetched from nowhere. */
export const text = localFont({
  src: [
    {
      path: '../../node_modules/@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2',
      weight: '200 800',
      style: 'normal',
    },
  ],
  variable: '--font-text',
  display: 'swap',
})
