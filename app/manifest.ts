import type { MetadataRoute } from 'next'

export default function manifest(): MetadataRoute.Manifest {
  return {
    name: 'Sipwright',
    short_name: 'Sipwright',
    description: 'Weigh trials of a drink, pour them blind, and settle a house recipe on evidence.',
    start_url: '/',
    display: 'standalone',
    background_color: '#faf7f2',
    theme_color: '#0f6b5c',
    icons: [
      { src: '/icon.svg', sizes: 'any', type: 'image/svg+xml' },
      { src: '/apple-icon', sizes: '180x180', type: 'image/png' },
    ],
  }
}
